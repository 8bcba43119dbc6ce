export const kit = {};

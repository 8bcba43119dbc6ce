export const heat = {};

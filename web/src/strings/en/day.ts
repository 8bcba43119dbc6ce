export const day = {};

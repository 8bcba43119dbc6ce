export const points = {};

export const map = {};

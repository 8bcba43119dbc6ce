// Earlier states.
export const states = {};

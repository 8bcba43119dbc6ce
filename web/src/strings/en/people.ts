// People and cars.
export const people = {};

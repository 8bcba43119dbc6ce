// Ride details.
export const details = {};

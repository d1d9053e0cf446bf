/** Standard gravity, m/s² (CGPM 1901; ISO 80000-3). */
export const gravityMS2 = 9.80665;

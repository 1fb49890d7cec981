/** Lengths of time, printed. */

/** Minutes as hours and minutes, to the whole minute: `45 min`, `3 h`, `3 h 20 min`, `0 min`. */
export function printMinutes(minutes: number): string {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

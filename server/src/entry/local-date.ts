/** Today's date where the program runs, `2026-03-14`. */
export function localDate(now: Date = new Date()): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

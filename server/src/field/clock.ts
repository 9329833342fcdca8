/** The time by the device, to the minute: `2026-03-20T09:40`. */
export function now(): string {
  const date = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}`;
}

// Moments between a field of the browser, which knows the time of its device only, and the store, which keeps UTC.
export function toLocal(utc: string): string {
  const date = new Date(utc);
  if (utc === "" || Number.isNaN(date.getTime())) return "";
  const two = (value: number) => String(value).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}T${two(date.getHours())}:${two(date.getMinutes())}`;
}

export function fromLocal(local: string): string {
  const date = new Date(local);
  return local === "" || Number.isNaN(date.getTime()) ? "" : `${date.toISOString().slice(0, 19)}Z`;
}

export function now(): string {
  return `${new Date().toISOString().slice(0, 16)}:00Z`;
}

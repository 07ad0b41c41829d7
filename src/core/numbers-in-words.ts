/** 1000000 as 1,000,000; not by the host's own rules, which differ between computers. */
export function grouped(value: number): string {
  return String(value).replace(/\B(?=(\d{3})+$)/g, ",");
}

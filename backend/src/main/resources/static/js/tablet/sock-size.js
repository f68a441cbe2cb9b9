// A size of filter socks by its code, such as 175, 175x400, 175-200 or 175x400-200: diameter, length in mm and fineness in µm.

const CODE = /^(\d{1,4})(?:x(\d{1,4}))?(?:-(\d{1,4}))?$/;

/** Of a task of a day that was fetched by a program that knew only diameters. @param {any} task */
export function sizeOf(task) {
  return String(task.size ?? task.sizeMm ?? "");
}

/**
 * @param {string} code
 * @returns {{ text: string, facts: { sizeMm: string, lengthMm?: string, finenessUm?: string } } | null} null where it is none
 */
export function sockSize(code) {
  const parts = CODE.exec(code);
  if (parts === null) {
    return null;
  }
  const [, sizeMm, lengthMm, finenessUm] = parts;
  return {
    text: `${sizeMm}${lengthMm ? ` × ${lengthMm}` : ""} mm${finenessUm ? `, ${finenessUm} µm` : ""}`,
    facts: { sizeMm, ...(lengthMm ? { lengthMm } : {}), ...(finenessUm ? { finenessUm } : {}) },
  };
}

// Lengths as they are read: in centimetres to a millimetre, or in inches to a sixteenth.

let unit = "cm";

export const inUnit = (name) => {
  unit = name === "in" ? "in" : "cm";
};
export const unitNow = () => unit;

export function length(mm) {
  if (mm === null || mm === undefined) return "–";
  if (unit === "cm") return `${(mm / 10).toFixed(1)} cm`;
  const parts = Math.round((Math.abs(mm) / 25.4) * 16);
  let [over, under] = [parts % 16, 16];
  while (over && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const whole = Math.floor(parts / 16);
  const text = [whole || !over ? String(whole) : "", over ? `${over}/${under}` : ""].filter(Boolean).join(" ");
  return `${mm < 0 && parts ? "-" : ""}${text} in`;
}

export const plain = (name) => name.replaceAll("_", " ");

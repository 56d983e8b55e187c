/**
 * The extension's picture: a washboard whose ribs are a vibration that dies down from rib to rib.
 * 256 x 256 px, drawn on a dark rounded square so that it stands on light and dark shop pages alike.
 */
export function icon(): string {
  const ribs = [0, 1, 2, 3, 4, 5].map((k) =>
    rib(88 + k * 23, 9.5 * Math.exp(-k / 2.2), k === 0 ? 3.4 : 3.4 - 0.15 * k),
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="256" height="256" viewBox="0 0 256 256">
  <defs>
    <linearGradient id="ground" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#1f4e5f"/><stop offset="1" stop-color="#12303c"/></linearGradient>
    <clipPath id="plate"><rect x="70" y="72" width="116" height="148" rx="4"/></clipPath>
  </defs>
  <rect x="8" y="8" width="240" height="240" rx="52" fill="url(#ground)"/>
  <g fill="#e9b872">
    <rect x="50" y="34" width="18" height="196" rx="7"/>
    <rect x="188" y="34" width="18" height="196" rx="7"/>
    <rect x="50" y="36" width="156" height="32" rx="7"/>
    <rect x="50" y="212" width="156" height="12" rx="4"/>
  </g>
  <rect x="68" y="68" width="120" height="144" fill="#d8ecef"/>
  <g clip-path="url(#plate)" fill="none" stroke="#12303c" stroke-linecap="round">${ribs.join('')}</g>
</svg>`;
}

/** Two and a half waves across the plate, with the given height in px. */
function rib(y: number, height: number, width: number): string {
  const points = Array.from({ length: 61 }, (_, k) => {
    const x = 74 + k * 1.8;
    return `${x.toFixed(1)} ${(y - height * Math.sin((k / 60) * 5 * Math.PI)).toFixed(2)}`;
  });
  return `<path stroke-width="${(2 * width).toFixed(1)}" d="M${points.join('L')}"/>`;
}

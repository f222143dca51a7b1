/** Small pieces of SVG. Looks come from classes alone: the page's policy forbids style attributes. */

const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Text made safe for SVG content and attributes. */
export function esc(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => escapes[sign] ?? sign)
}

/** A number as short as it can be, to a hundredth of a px. */
export function num(v: number): string {
  return String(Math.round(v * 100) / 100)
}

export function path(d: string, className: string): string {
  return `<path class="${className}" d="${d}"/>`
}

export function line(x1: number, y1: number, x2: number, y2: number, className: string): string {
  return path(
    `M${num(x1)} ${num(y1)}${y1 === y2 ? `H${num(x2)}` : x1 === x2 ? `V${num(y2)}` : `L${num(x2)} ${num(y2)}`}`,
    className,
  )
}

export function circle(x: number, y: number, r: number, className: string): string {
  return `<circle class="${className}" cx="${num(x)}" cy="${num(y)}" r="${num(r)}"/>`
}

export function rect(x: number, y: number, width: number, height: number, className: string, rx = 0): string {
  return `<rect class="${className}" x="${num(x)}" y="${num(y)}" width="${num(width)}" height="${num(height)}"${rx ? ` rx="${num(rx)}"` : ''}/>`
}

/**
 * Ink that can be pressed: `area` is a shape that carries name and data, the ink lies over it and lets presses through. So
 * the button holds no lettering, and its name is all that is said of it.
 */
export function button(
  className: string,
  area: string,
  data: string,
  name: string,
  chosen: boolean,
  ink: string,
): string {
  const named = `${data} tabindex="0" role="button"${chosen ? ' aria-pressed="true"' : ''} aria-label="${esc(name)}"`
  return `<g class="pressable ${className}">${area.replace('/>', ` ${named}/>`)}<g aria-hidden="true">${ink}</g></g>`
}

export function text(
  x: number,
  y: number,
  words: string,
  className: string,
  anchor: 'start' | 'middle' | 'end' = 'middle',
): string {
  return words === ''
    ? ''
    : `<text class="${className}" x="${num(x)}" y="${num(y)}" text-anchor="${anchor}">${esc(words)}</text>`
}

export function at(x: number, y: number, inner: string, more = ''): string {
  return `<g transform="translate(${num(x)} ${num(y)})${more}">${inner}</g>`
}

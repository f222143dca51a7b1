import text400 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff2?url'
import text600 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-600-normal.woff2?url'
import text700 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff2?url'
import text800 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-800-normal.woff2?url'
import signs400 from '../../core/drawing/fonts/signs.woff2?url'
import signs700 from '../../core/drawing/fonts/signs-Bold.woff2?url'
import { type Plan, renderSvg } from '../../core/drawing/index.ts'
import { faceRule } from '../../core/drawing/style.ts'

const faces = [
  ['Atkinson Hyperlegible Next', 400, text400],
  ['Atkinson Hyperlegible Next', 600, text600],
  ['Atkinson Hyperlegible Next', 700, text700],
  ['Atkinson Hyperlegible Next', 800, text800],
  ['Halfsplit Signs', 400, signs400],
  ['Halfsplit Signs', 700, signs700],
] as const

/** The drawing as an SVG file that stands on its own, its fonts in it (some 80 kB); light, with its legend. */
export async function drawingFile(plan: Plan, view: Parameters<typeof renderSvg>[1]): Promise<string> {
  return renderSvg(plan, { ...view, standalone: true, legend: true, theme: 'light', fontFaces: await fontFaces() })
}

let made: Promise<string> | undefined

function fontFaces(): Promise<string> {
  made ??= Promise.all(
    faces.map(async ([family, weight, url]) => {
      const response = await fetch(url)
      if (!response.ok) throw new Error('a font of the drawing is missing. Load the page again.')
      const data = base64(new Uint8Array(await response.arrayBuffer()))
      return faceRule(family, weight, `data:font/woff2;base64,${data}`)
    }),
  ).then((rules) => rules.join(''))
  made.catch(() => {
    made = undefined
  })
  return made
}

function base64(bytes: Uint8Array): string {
  let text = ''
  for (const byte of bytes) text += String.fromCharCode(byte)
  return btoa(text)
}

import text400 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff2?inline'
import text600 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-600-normal.woff2?inline'
import text700 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff2?inline'
import text800 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-800-normal.woff2?inline'
import signs400 from '../../core/drawing/fonts/signs.woff2?inline'
import signs700 from '../../core/drawing/fonts/signs-Bold.woff2?inline'
import { faceRule } from '../../core/drawing/style.ts'

/** The fonts of a drawing as rules that its file carries, some 80 kB. */
export const fontFaces: string = [
  faceRule('Atkinson Hyperlegible Next', 400, text400),
  faceRule('Atkinson Hyperlegible Next', 600, text600),
  faceRule('Atkinson Hyperlegible Next', 700, text700),
  faceRule('Atkinson Hyperlegible Next', 800, text800),
  faceRule('Halfsplit Signs', 400, signs400),
  faceRule('Halfsplit Signs', 700, signs700),
].join('')

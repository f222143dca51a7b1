import type { Diagnostic } from '@codemirror/lint'
import type { Problem } from '../../core/netlist/index.ts'

/** Problems as the editor underlines them: what is wrong, then what to do. */
export const diagnostics = (problems: readonly Problem[], length: number): Diagnostic[] =>
  problems.map(({ from, to, severity, message, hint }) => ({
    from: Math.min(from, length),
    to: Math.min(Math.max(to, from), length),
    severity,
    message: `${message} ${hint}`.replaceAll('`', ''),
    renderMessage: () => {
      const box = document.createElement('div')
      const what = box.appendChild(document.createElement('b'))
      what.append(...words(message))
      box.append(document.createElement('br'), ...words(hint))
      return box
    },
  }))

/** Words between backticks are words of the netlist. */
function words(sentence: string): (Node | string)[] {
  return sentence.split('`').map((text, i) => {
    if (i % 2 === 0) return text
    const code = document.createElement('code')
    code.textContent = text
    return code
  })
}

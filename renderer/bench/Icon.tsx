const shapes = {
  undo: 'M9 5L4 10l5 5M4 10h9a6 6 0 0 1 0 12h-3',
  redo: 'M15 5l5 5-5 5M20 10h-9a6 6 0 0 0 0 12h3',
  fit: 'M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5',
  plus: 'M12 5v14M5 12h14',
  minus: 'M5 12h14',
  close: 'M5 5l14 14M19 5L5 19',
  down: 'M5 9l7 7 7-7',
  back: 'M14 4l-8 8 8 8',
  on: 'M10 4l8 8-8 8',
  export: 'M12 15V4M8 8l4-4 4 4M5 12v8h14v-8',
  find: 'M10 4a6 6 0 1 0 .01 0M15 15l6 6',
} as const

export function Icon({ name }: { readonly name: keyof typeof shapes | 'shade' }) {
  return (
    <svg className="icon" width="24" height="24" viewBox="0 0 24 24" aria-hidden="true">
      {name === 'shade' ? (
        <>
          <circle cx="12" cy="12" r="8" />
          <path className="solid" d="M12 4a8 8 0 0 1 0 16z" />
        </>
      ) : (
        <path d={shapes[name]} />
      )}
    </svg>
  )
}

/** Our mark: a bead halved on its string. */
export function Mark() {
  return (
    <svg className="mark" width="45" height="28" viewBox="-24 -15 48 30" aria-hidden="true">
      <path className="mark-line" d="M-22 0H-11M11 0H22" />
      <path className="mark-full" d="M-2 -11A11 11 0 0 0 -2 11z" />
      <path className="mark-hollow" d="M2.5 -9.8A10 10 0 0 1 2.5 9.8z" />
    </svg>
  )
}

import { useLayoutEffect, useRef } from 'react'
import { useActions, useBench } from '../store/context.ts'
import { stepOf } from '../store/reduce.ts'
import { Icon } from './Icon.tsx'

/** What happens, step by step; the drawing shows the chosen one. */
export function Story() {
  const story = useBench((b) => b.trace?.story)
  const now = useBench(stepOf)
  const { toStep, step } = useActions()
  const list = useRef<HTMLOListElement>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: it follows the step on show
  useLayoutEffect(() => {
    const item = list.current?.querySelector<HTMLElement>('[aria-current]')
    const box = list.current
    if (!item || !box) return
    const below = item.offsetTop + item.offsetHeight > box.scrollTop + box.clientHeight
    if (item.offsetTop < box.scrollTop || below) box.scrollTop = item.offsetTop
    const beside = item.offsetLeft + item.offsetWidth > box.scrollLeft + box.clientWidth
    if (item.offsetLeft < box.scrollLeft || beside) box.scrollLeft = item.offsetLeft - box.clientWidth / 2
  }, [now, story])
  if (!story || story.length === 0) return null
  return (
    <section className="story" aria-label="Story">
      <div className="story-steps">
        <p className="small">
          Story, step {now + 1} of {story.length}
        </p>
        <button
          type="button"
          className="step"
          aria-label="Step back"
          title="Step back, ["
          disabled={now <= 0}
          onClick={() => step(-1)}
        >
          <Icon name="back" />
        </button>
        <button
          type="button"
          className="step"
          aria-label="Step on"
          title="Step on, ]"
          disabled={now >= story.length - 1}
          onClick={() => step(1)}
        >
          <Icon name="on" />
        </button>
      </div>
      <ol ref={list}>
        {story.map(({ step: number, text }, i) => (
          <li key={number} className={i < now ? 'past' : i > now ? 'to-come' : 'now'}>
            <button type="button" aria-current={i === now ? 'step' : undefined} onClick={() => toStep(i)}>
              {text}
            </button>
          </li>
        ))}
      </ol>
    </section>
  )
}

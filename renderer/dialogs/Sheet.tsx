import { Dialog } from 'radix-ui'
import type { ReactNode } from 'react'
import { Icon } from '../bench/Icon.tsx'

interface SheetProps {
  readonly title: string
  readonly says?: string
  readonly className?: string
  readonly onClose: () => void
  readonly children: ReactNode
}

/** A sheet laid over the bench: one question or one list, closed by Escape. */
export function Sheet({ title, says, className = '', onClose, children }: SheetProps) {
  return (
    <Dialog.Root open onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal>
        <Dialog.Overlay className="veil" />
        <Dialog.Content
          className={`dialog ${className}`}
          {...(says === undefined && { 'aria-describedby': undefined })}
        >
          <Dialog.Title>{title}</Dialog.Title>
          {says !== undefined && <Dialog.Description>{says}</Dialog.Description>}
          {children}
          {/* Last, so that focus begins with what the sheet is for. */}
          <Dialog.Close className="dialog-close" aria-label="Close">
            <Icon name="close" />
          </Dialog.Close>
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

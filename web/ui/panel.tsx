import { useEffect, useId, useRef } from 'react'
import { Button } from './button.tsx'
import './panel.css'

interface PanelProps {
  title: string
  /** Closes it, also by Escape; left out where it must be answered. */
  onClose?: () => void
  closeText?: string
  /** Beside the title, always in reach. */
  aside?: React.ReactNode
  className?: string
  children: React.ReactNode
}

/** Something to attend to before the page goes on: it lies over the page, has the focus, and Escape closes it. */
export function Panel({ title, onClose, closeText = 'Back', aside, className = '', children }: PanelProps) {
  const dialog = useRef<HTMLDialogElement>(null)
  const id = useId()
  useEffect(() => {
    const before = document.activeElement
    dialog.current?.showModal()
    return () => {
      if (before instanceof HTMLElement) before.focus()
    }
  }, [])
  return (
    <dialog
      ref={dialog}
      className={`panel-dialog ${className}`}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault()
        onClose?.()
      }}
    >
      <div className="panel-head">
        <h2 id={id}>{title}</h2>
        {aside}
        {onClose && <Button onClick={onClose}>{closeText}</Button>}
      </div>
      {children}
    </dialog>
  )
}

import { useId, useRef, useState } from 'react'
import { Button } from '../../ui/button.tsx'

interface DropFieldProps {
  busy: boolean
  onFile: (file: File) => void
}

/** Takes a file that is dropped on it or chosen. */
export function DropField({ busy, onFile }: DropFieldProps) {
  const input = useRef<HTMLInputElement>(null)
  const [over, setOver] = useState(false)
  const id = useId()
  const take = (files: FileList | null) => {
    const file = files?.[0]
    if (file && !busy) onFile(file)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the button within does the same for everybody
    <div
      className={over ? 'import-drop import-drop-over' : 'import-drop'}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        take(event.dataTransfer.files)
      }}
    >
      <label className="out-of-sight" htmlFor={id}>
        File to import
      </label>
      <input
        ref={input}
        id={id}
        className="out-of-sight"
        tabIndex={-1}
        type="file"
        accept=".csv,.tsv,.txt,.xlsx,.json"
        onChange={(event) => {
          take(event.target.files)
          event.target.value = ''
        }}
      />
      <Button kind="main" disabled={busy} onClick={() => input.current?.click()}>
        {busy ? 'Reading the file' : 'Choose a file'}
      </Button>
      <p>or drop it here: a spreadsheet (.xlsx), CSV or JSON. Nothing is stored before you have seen every row.</p>
    </div>
  )
}

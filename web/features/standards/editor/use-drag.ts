import { useState } from 'react'

/** Rows that can be dragged to another place. Out: what each row is given, by its place. */
export function useDrag(onMove: (from: number, to: number) => void) {
  const [from, setFrom] = useState<number | null>(null)
  const [over, setOver] = useState<number | null>(null)
  const end = () => {
    setFrom(null)
    setOver(null)
  }
  return (at: number) => ({
    draggable: true,
    'data-over': over === at && from !== null && from !== at ? (from < at ? 'after' : 'before') : undefined,
    onDragStart: (event: React.DragEvent) => {
      event.dataTransfer.effectAllowed = 'move'
      event.dataTransfer.setData('text/plain', '')
      setFrom(at)
    },
    onDragOver: (event: React.DragEvent) => {
      if (from === null) return
      event.preventDefault()
      setOver(at)
    },
    onDrop: (event: React.DragEvent) => {
      event.preventDefault()
      if (from !== null && from !== at) onMove(from, at)
      end()
    },
    onDragEnd: end,
  })
}

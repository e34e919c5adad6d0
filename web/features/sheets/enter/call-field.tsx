interface CallFieldProps {
  code: string
  title: string
  calls: number
  value: string
  onValue: (typed: string) => void
  onDone: () => void
}

/** After how many calls a major measure fell; 0 is before the first one. */
export function CallField({ code, title, calls, value, onValue, onDone }: CallFieldProps) {
  return (
    <tr className="mark-call">
      <td>
        <label>
          {title} fell after call{' '}
          <input
            id={`call-${code}`}
            inputMode="numeric"
            autoComplete="off"
            size={4}
            value={value}
            onChange={(event) => onValue(event.target.value)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' || event.ctrlKey) return
              event.preventDefault()
              onDone()
            }}
          />{' '}
          <span className="muted">0 to {calls}; 0 is before the first</span>
        </label>
      </td>
    </tr>
  )
}

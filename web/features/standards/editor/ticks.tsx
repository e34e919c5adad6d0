interface TicksProps {
  legend: string
  choices: readonly { readonly code: string; readonly title: string }[]
  chosen: readonly string[]
  error?: string | null
  onTick: (code: string, isTicked: boolean) => void
}

/** Several of a few. */
export function Ticks({ legend, choices, chosen, error, onTick }: TicksProps) {
  return (
    <fieldset className="draft-ticks">
      <legend>{legend}</legend>
      {choices.map(({ code, title }) => (
        <label key={code} className="tick">
          <input
            type="checkbox"
            checked={chosen.includes(code)}
            onChange={(event) => onTick(code, event.target.checked)}
          />
          {title}
        </label>
      ))}
      {error && <p className="draft-wrong">{error}</p>}
    </fieldset>
  )
}

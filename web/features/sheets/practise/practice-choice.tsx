import type { Standard } from '#contract/standards/standards.ts'
import { Button } from '../../../ui/button.tsx'

interface PracticeChoiceProps {
  standard: Standard
  /** Codes of measures; null: the whole standard. */
  chosen: readonly string[] | null
  tried: boolean
  onChoose: (chosen: readonly string[] | null) => void
}

/** What is practised: the whole standard by its calls, or some measures in any order. */
export function PracticeChoice({ standard, chosen, tried, onChoose }: PracticeChoiceProps) {
  const isNone = chosen?.length === 0
  return (
    <>
      <fieldset className="choices">
        <legend>Practise</legend>
        <label className="choice">
          <input type="radio" name="extent" checked={chosen !== null} onChange={() => onChoose([])} />
          Chosen measures
        </label>
        <label className="choice">
          <input type="radio" name="extent" checked={chosen === null} onChange={() => onChoose(null)} />
          The whole standard, call by call
        </label>
      </fieldset>
      {chosen && (
        <fieldset className="choices">
          <legend>
            {isNone && tried ? 'Measures: choose one at least.' : 'Measures, as often as you like; close any time'}
          </legend>
          {standard.minors.map(({ code, title }) => (
            <label key={code} className="choice">
              <input
                type="checkbox"
                checked={chosen.includes(code)}
                onChange={({ target }) =>
                  onChoose(target.checked ? [...chosen, code] : chosen.filter((one) => one !== code))
                }
              />
              {title}
            </label>
          ))}
          {isNone && (
            <Button kind="quiet" onClick={() => onChoose(standard.minors.map(({ code }) => code))}>
              All of them
            </Button>
          )}
        </fieldset>
      )}
    </>
  )
}

import type { Standard } from '#contract/standards/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import { READING } from '../../../domain/sheets/reading.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { TextField } from '../../../ui/field.tsx'
import type { Cell } from './cells.ts'
import type { Draft } from './draft.ts'

interface ReadingFieldsProps {
  standard: Standard
  draft: Draft
  cell: Cell
  onReading: (gauge: string, value: string, override: string | null) => void
  /** Back to the marks. */
  onBack: () => void
}

/** The gauges of a measure, one field each. Enter goes on to the next one and from the last back to the marks. */
export function ReadingFields({ standard, draft, cell, onReading, onBack }: ReadingFieldsProps) {
  const codes = standard.minors.find(({ code }) => code === cell.code)?.gauges ?? []
  const gauges = standard.gauges.filter(({ code }) => codes.includes(code))
  const marked = draft.minors[cell.code]?.trials[cell.trial - 1]
  const onKeyDown = (event: React.KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Escape') onBack()
    if (event.key !== 'Enter' || event.ctrlKey) return
    event.preventDefault()
    const fields = [...(event.currentTarget.closest('.panel-readings')?.querySelectorAll('input') ?? [])]
    const next = fields[fields.indexOf(event.currentTarget) + 1]
    if (next) next.focus()
    else onBack()
  }
  if (gauges.length === 0) return null
  return (
    <div className="panel-readings">
      {gauges.map((gauge) => {
        const reading = draft.minors[cell.code]?.readings.find(
          (one) => one.trial === cell.trial && one.gauge === gauge.code,
        )
        const value = reading?.value ?? ''
        const wellFormed = READING.test(value)
        const place = wellFormed ? placeInBand(gauge, value) : 'inside'
        const outside = place === 'inside' ? null : place
        return (
          <div key={`${cell.code} ${cell.trial} ${gauge.code}`} className="panel-reading">
            <TextField
              label={`${gauge.title}, ${formatBand(gauge)}`}
              inputMode="decimal"
              autoComplete="off"
              tabIndex={-1}
              data-reading
              error={value !== '' && !wellFormed ? 'Up to four digits and four decimals, such as 5.25.' : null}
              hint={
                outside && reading?.override == null
                  ? `${outside === 'low' ? 'Too low' : 'Too high'}: the trial counts as incorrect.`
                  : undefined
              }
              value={value}
              onChange={(event) => {
                const typed = event.target.value.replace(',', '.')
                const stands = !READING.test(typed) || placeInBand(gauge, typed) !== 'inside'
                onReading(gauge.code, typed, stands ? (reading?.override ?? null) : null)
              }}
              onKeyDown={onKeyDown}
            />
            {outside && marked === 'correct' && (
              <TextField
                label="The mark stands nevertheless, because"
                autoComplete="off"
                tabIndex={-1}
                placeholder="leave empty if it does not"
                value={reading?.override ?? ''}
                onChange={(event) =>
                  onReading(gauge.code, value, event.target.value === '' ? null : event.target.value)
                }
                onKeyDown={onKeyDown}
              />
            )}
          </div>
        )
      })}
    </div>
  )
}

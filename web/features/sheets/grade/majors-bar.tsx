import type { Standard } from '#contract/standards/standards.ts'
import { majorOf, type RunningSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'
import { CeaseButton } from './cease-button.tsx'

interface MajorsBarProps {
  standard: Standard
  sheet: RunningSheet
  onMajor: (code: string) => void
  onCease: () => void
}

/** The major measures and "cease", always at hand. */
export function MajorsBar({ standard, sheet, onMajor, onCease }: MajorsBarProps) {
  return (
    <div className="majors">
      <div className="majors-list">
        {standard.majors.map(({ code, title }) => {
          const { mark, faults } = majorOf(sheet, code)
          return (
            <Button key={code} onClick={() => onMajor(code)}>
              <span>{title}</span>
              <b>{mark === 'NO-GO' ? 'NO-GO' : faults.length > 0 ? `GO, ${faults.length} noted` : 'GO'}</b>
            </Button>
          )
        })}
      </div>
      <CeaseButton onCease={onCease} />
    </div>
  )
}

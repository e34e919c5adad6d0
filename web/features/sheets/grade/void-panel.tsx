import { useState } from 'react'
import type { SheetBody } from '#contract/sheets/sheets.ts'
import { scoreSoFar } from '../../../domain/sheets/grading/sheet-body.ts'
import { Button } from '../../../ui/button.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Panel } from '../../../ui/panel.tsx'
import { CeaseButton } from './cease-button.tsx'
import type { PanelProps } from './panel-props.ts'

type Void = NonNullable<SheetBody['void']>

const KINDS: readonly (readonly [kind: Void['kind'], text: string])[] = [
  ['weather', 'Weather'],
  ['injury', 'Injury'],
  ['equipment', 'Equipment'],
  ['interrupted', 'Interrupted'],
  ['other', 'Another reason'],
]

/** Ends a test that is no attempt: nobody's fault, and in no figure. A tap on the reason ends it; it can be taken back until the sheet is closed. */
export function VoidPanel({ scored, sheet, onTap, onClose, onCease }: PanelProps) {
  const [text, setText] = useState('')
  const [lacksWords, setLacksWords] = useState(false)
  const score = scoreSoFar(scored, sheet)
  const isLost = score.ending === 'stopped' || (score.ending === 'unfinished' && !score.reachable)
  const end = (kind: Void['kind']) => {
    if (kind === 'other' && text.trim() === '') return setLacksWords(true)
    onClose()
    void onTap({ kind: 'void', reason: { kind, text: text.trim() } })
  }
  return (
    <Panel title="End the test void" onClose={onClose} aside={<CeaseButton onCease={onCease} />}>
      <p>It is then no attempt and in no figure. Why?</p>
      {isLost && <p>The test is lost already: a void after that is held for the training office.</p>}
      <TextField
        label="In words, where one word does not say it"
        autoComplete="off"
        maxLength={2000}
        value={text}
        error={lacksWords ? 'Say the reason.' : null}
        onChange={(event) => setText(event.target.value)}
      />
      <ul className="call-faults">
        {KINDS.map(([kind, words]) => (
          <li key={kind}>
            <Button onClick={() => end(kind)}>{words}</Button>
          </li>
        ))}
      </ul>
    </Panel>
  )
}

import '../../../ui/kbd.css'
import './key-help.css'

const KEYS: [keys: string[], what: string][] = [
  [['1'], 'correct, GO'],
  [['0'], 'incorrect, NO-GO'],
  [['.'], 'blank, not called'],
  [['a', 'b', 'c'], 'fault of the trial just marked'],
  [['/'], 'faults by their numbers on paper; Enter comes back'],
  [['='], 'its readings; Enter comes back'],
  [['Backspace'], 'take back'],
  [['Enter'], 'next measure; arrows move'],
  [['Ctrl', 'Enter'], 'send the sheet'],
]

/** The keys of the sheet, always in sight where there is a keyboard. */
export function KeyHelp() {
  return (
    <dl className="key-help">
      {KEYS.map(([keys, what]) => (
        <div key={what}>
          <dt>
            {keys.map((key) => (
              <kbd key={key}>{key}</kbd>
            ))}
          </dt>
          <dd>{what}</dd>
        </div>
      ))}
    </dl>
  )
}

import { Button } from '../../../ui/button.tsx'

interface RecoverySheetProps {
  name: string
  codes: readonly string[]
  onDone: () => void
}

/** Ten new recovery codes, shown once: to print, or to copy to where other secrets are. Printed they are all of the page. */
export function RecoverySheet({ name, codes, onDone }: RecoverySheetProps) {
  return (
    <div className="notice notice-good recovery-sheet" role="status">
      <p>
        <b>Recovery codes for {<bdi>{name}</bdi>}.</b> Each signs you in once, instead of the phone you may lose. They
        are shown this once; keep them apart from the phone and from the password.
      </p>
      <ol className="recovery-codes">
        {codes.map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ol>
      <div className="reasoned-form-buttons no-print">
        <Button kind="main" onClick={() => window.print()}>
          Print them
        </Button>
        <Button onClick={() => navigator.clipboard.writeText(codes.join('\n'))}>Copy</Button>
        <Button onClick={onDone}>I have them</Button>
      </div>
    </div>
  )
}

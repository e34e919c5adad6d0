import './notice.css'

type Kind = 'plain' | 'good' | 'bad'

/** A message set off from the page; `bad` ones are read out at once. */
export function Notice({ kind = 'plain', children }: { kind?: Kind; children: React.ReactNode }) {
  return (
    <div className={`notice notice-${kind}`} role={kind === 'bad' ? 'alert' : 'status'}>
      {children}
    </div>
  )
}

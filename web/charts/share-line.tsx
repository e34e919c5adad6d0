import './share-line.css'

/** A share as a dot on a line from none to all. `few` draws it hollow: too little is known. The figures belong beside it. */
export function ShareLine({ part, of, few = false }: { part: number; of: number; few?: boolean }) {
  return (
    <span className="share-line" aria-hidden="true">
      {of > 0 && (
        <>
          <i className="share-stem" style={{ width: `${(100 * part) / of}%` }} />
          <i className={few ? 'share-dot share-few' : 'share-dot'} style={{ left: `${(100 * part) / of}%` }} />
        </>
      )}
    </span>
  )
}

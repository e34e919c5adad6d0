import { Mark } from './mark.tsx'
import './doorway.css'

/** The frame of the pages that stand alone, before anybody is signed in. */
export function Doorway({ children }: { children: React.ReactNode }) {
  return (
    <div className="doorway">
      <header className="doorway-name">
        <Mark size={26} />
        Reviewstand
      </header>
      {children}
    </div>
  )
}

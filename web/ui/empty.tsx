import './empty.css'

/** Nothing is here: why, and what would bring something. */
export function Empty({ children }: { children: React.ReactNode }) {
  return <div className="empty">{children}</div>
}

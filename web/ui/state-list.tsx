import './state-list.css'

/** What stands, a line each, its state at the end of the line. */
export const StateList = ({ children }: { children: React.ReactNode }) => <ul className="state-list">{children}</ul>

interface StateLineProps {
  /** What it is, then its state. */
  children: React.ReactNode
  /** What it rests on, below. */
  lines?: readonly string[]
}

export const StateLine = ({ children, lines = [] }: StateLineProps) => (
  <li>
    {children}
    {lines.length > 0 && (
      <ul className="state-list-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    )}
  </li>
)

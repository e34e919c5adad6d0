import { Failure } from './failure.tsx'
import './part.css'

interface PartProps {
  query: { data: unknown; error: Error | null; refetch: () => void }
  children: React.ReactNode
}

/** One figure of the overview; it keeps its place while it loads, and fails alone. */
export function Part({ query, children }: PartProps) {
  if (query.data === undefined && query.error) return <Failure error={query.error} onRetry={query.refetch} />
  return (
    <div className="part" aria-busy={query.data === undefined || undefined}>
      {children}
    </div>
  )
}

import { Button } from './button.tsx'

interface MoreProps {
  hasMore: boolean
  loading: boolean
  onMore: () => void
  children: string
}

/** The way to the next page of a list, where there is one. */
export function More({ hasMore, loading, onMore, children }: MoreProps) {
  if (!hasMore) return null
  return (
    <p className="no-print" style={{ marginTop: '1rem' }}>
      <Button onClick={onMore} disabled={loading}>
        {loading ? 'Loading' : children}
      </Button>
    </p>
  )
}

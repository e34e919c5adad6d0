import { lazy, Suspense, useEffect, useState } from 'react'
import { Button } from '../../ui/button.tsx'
import { opensSearch } from './search-key.ts'
import './search-button.css'

const SearchDialog = lazy(() => import('./search-dialog.tsx'))

/** Opens the search, as the key `/` does anywhere but in a field. */
export function SearchButton() {
  const [isOpen, setOpen] = useState(false)
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (!opensSearch(event)) return
      event.preventDefault()
      setOpen(true)
    }
    addEventListener('keydown', onKeyDown)
    return () => removeEventListener('keydown', onKeyDown)
  }, [])
  return (
    <>
      <Button
        className="search-button no-print"
        aria-keyshortcuts="/"
        aria-haspopup="dialog"
        onClick={() => setOpen(true)}
      >
        <svg width="16" height="16" viewBox="0 0 16 16" fill="none" stroke="currentColor" aria-hidden="true">
          <circle cx="6.5" cy="6.5" r="4.75" strokeWidth="1.75" />
          <path d="m10 10 4.5 4.5" strokeWidth="2" />
        </svg>
        <span>Search</span>
      </Button>
      {isOpen && (
        <Suspense fallback={null}>
          <SearchDialog onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </>
  )
}

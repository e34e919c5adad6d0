import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useEffect, useId, useRef, useState } from 'react'
import { useLocation } from 'wouter'
import { sessionQuery } from '../../api/accounts/session.ts'
import { searchQuery } from '../../api/search/search.ts'
import { findPlaces } from '../../domain/search/find-places.ts'
import { Failure } from '../../ui/failure.tsx'
import { today as todayIn } from '../../words/today.ts'
import { addressOf, formatFound } from './format-found.ts'
import { isSearchKeyOn, setSearchKey } from './search-key.ts'
import './search-dialog.css'

/** Type, arrow, Enter: from anywhere to a soldier, a ceremony, a test day, a standard, or to the page for what one means to do. */
export default function SearchDialog({ onClose }: { onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null)
  const [text, setText] = useState('')
  const [active, setActive] = useState(0)
  const [keyOn, setKeyOn] = useState(isSearchKeyOn)
  const [, navigate] = useLocation()
  const id = useId()
  const { asked, found, searching, search } = useFound(text)
  const marked = searching ? undefined : found[Math.min(active, found.length - 1)]
  useEffect(() => dialog.current?.showModal(), [])

  const open = (item: (typeof found)[number]) => {
    dialog.current?.close()
    navigate(item.to)
  }
  const onKeyDown = (event: React.KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
    if (step) {
      event.preventDefault()
      setActive(Math.max(0, Math.min(found.length - 1, active + step)))
    } else if (event.key === 'Enter' && marked) {
      event.preventDefault()
      open(marked)
    }
  }
  return (
    <dialog ref={dialog} className="search" aria-label="Search" onClose={onClose}>
      <label htmlFor={id} className="out-of-sight">
        Soldier by name or roster number, ceremony, test day by its place, standard, or what you want to do
      </label>
      <input
        id={id}
        role="combobox"
        aria-expanded={found.length > 0}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={marked && `${id}-${found.indexOf(marked)}`}
        placeholder="Name, number, ceremony, place, or what to do"
        autoComplete="off"
        spellCheck={false}
        maxLength={100}
        value={text}
        onChange={(event) => {
          setText(event.target.value)
          setActive(0)
        }}
        onKeyDown={onKeyDown}
      />
      <div id={`${id}-list`} role="listbox" aria-label="Found">
        {found.map((item, place) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the keys are handled by the combobox
          <div
            key={item.key}
            id={`${id}-${place}`}
            role="option"
            tabIndex={-1}
            aria-selected={item === marked}
            onClick={() => open(item)}
          >
            <bdi>{item.title}</bdi> <span>{item.note}</span>
          </div>
        ))}
      </div>
      {search.error && <Failure error={search.error} onRetry={search.refetch} />}
      <p className="search-note" role="status">
        {asked !== '' && !searching && found.length === 0 && !search.error
          ? 'Nothing found that starts with that. Try the roster number, or fewer letters.'
          : 'Arrows choose, Enter opens, Escape leaves.'}
      </p>
      <label className="tick small">
        <input
          type="checkbox"
          checked={keyOn}
          onChange={() => {
            setSearchKey(!keyOn)
            setKeyOn(!keyOn)
          }}
        />
        The key / opens this search
      </label>
    </dialog>
  )
}

/** What is found for what is typed: whoever and whatever it begins, then pages for what one means to do. */
const useFound = (text: string) => {
  const asked = useDeferredValue(text.trim())
  const search = useQuery(searchQuery(asked))
  const roles = useQuery(sessionQuery).data?.roles ?? []
  const today = todayIn()
  const found = [
    ...(asked === '' ? [] : (search.data ?? [])).map((item) => ({
      key: `${item.kind} ${item.id}`,
      title: item.title,
      note: formatFound(item, today),
      to: addressOf(item),
    })),
    ...findPlaces(text, roles, today).map(({ title, to }) => ({ key: `${title} ${to}`, title, note: 'page', to })),
  ]
  const searching = asked !== text.trim() || search.isPlaceholderData || (asked !== '' && search.isPending)
  return { asked, found, searching, search }
}

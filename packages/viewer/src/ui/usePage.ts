/** React's way into the store: one context, selectors, and the live numbers that bypass React (live.tsx). */
import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { PageState, PageStore } from '../state/store.ts'

export const StoreContext = createContext<PageStore | undefined>(undefined)

export function usePageStore(): PageStore {
  const store = useContext(StoreContext)
  if (!store) throw new Error('a part of the page stands outside its store: wrap it in <StoreContext>')
  return store
}

export function usePage<T>(select: (state: PageState) => T): T {
  return useStore(usePageStore(), select)
}

export const useActions = (): PageState => usePageStore().getState()

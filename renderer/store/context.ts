import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { StoreApi } from 'zustand/vanilla'
import { invariant } from '../../core/netlist/index.ts'
import type { Actions } from './actions.ts'
import type { Bench } from './state.ts'

export interface BenchTop {
  readonly store: StoreApi<Bench>
  readonly actions: Actions
}

export const BenchContext = createContext<BenchTop | null>(null)

function useTop(): BenchTop {
  const top = useContext(BenchContext)
  invariant(top, 'every part of the bench stands inside BenchContext')
  return top
}

/** A part of the bench's state; draws again when that part changes. */
export const useBench = <T>(pick: (bench: Bench) => T): T => useStore(useTop().store, pick)
export const useActions = (): Actions => useTop().actions

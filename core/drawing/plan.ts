import type { ElementId, Figure, TerminalId } from '../circuit/model.ts'

/** A point of the sheet, px; x to the right, y down. */
export interface Point {
  readonly x: number
  readonly y: number
}

export interface Box extends Point {
  readonly width: number
  readonly height: number
}

/** One line of lettering, placed by its baseline. */
export interface Lettering extends Point {
  readonly text: string
  readonly anchor: 'start' | 'middle' | 'end'
}

/** An element on the sheet. Its symbol stands on a line through (x, y), 64 px wide. */
export interface PlacedElement {
  readonly id: ElementId
  readonly figure: Figure
  /** A contact or a link: may have to be closed. */
  readonly switches: boolean
  /** The name of its part in words, for those who hear the drawing: `Operating thermostat`; may be empty. */
  readonly label: string
  /** Loads that move what works it, with the name a flag gives them. */
  readonly waitsFor: readonly { readonly load: ElementId; readonly name: string }[]
  readonly x: number
  readonly y: number
  /** Drawn right to left: its first end is the one at the right. */
  readonly flipped: boolean
  /** What nothing else may enter: symbol, lettering and room for marks. */
  readonly box: Box
  /** What stands above it: `M:heat`, `OT`. */
  readonly name: Lettering
  /** Words under the name; a reason or a flag may take their place. */
  readonly lines: readonly Lettering[]
  /** Room for a reason or a flag in place of the last line, px either side of its middle. */
  readonly room: number
  readonly terminals: readonly [TerminalId, TerminalId]
  /** Where wires meet it, in the order of its `terminals`. */
  readonly ends: readonly [Point, Point]
  /** Terminal tags beside the leads, in the order of its `ends`; empty where they would repeat. */
  readonly tags: readonly [Lettering, Lettering]
  /** The first throw of a changeover: the other throw, and how far below its line stands, px. */
  readonly other?: { readonly id: ElementId; readonly drop: number }
  /** The other throw of a changeover: the element that the shared blade is drawn with. */
  readonly throwOf?: ElementId
  /** Both ends are joined: the loop's depth below the line, px, and what it says. */
  readonly loop?: { readonly depth: number; readonly says: Lettering }
}

/** A pole of the supply, or the chassis as a return: a heavy upright line. */
export interface Rail {
  /** `L1`; of a further supply or a secondary its terminal: `aux.+`, `T1.R`. A name may stand at several rails. */
  readonly name: string
  readonly side: 'left' | 'right'
  readonly x: number
  readonly y1: number
  readonly y2: number
  readonly label: Lettering
  /** What leads back to a source, at no voltage: `N`, `−`, the chassis, the second end of a secondary. */
  readonly returns?: true
}

/** A straight piece of a net, level or upright, in no other piece of it. */
export interface Segment {
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
  /** Wires that run along it. */
  readonly wires: readonly ElementId[]
  /**
   * What the net joins on either side of this piece: elements, and rails as `rail:L1`. Current runs along the piece only
   * if something on both sides carries some. Absent where the net closes a ring.
   */
  readonly sides?: readonly [readonly string[], readonly string[]]
}

/** Insulation colour near the end of a wire. */
export interface Swatch extends Point {
  readonly wires: readonly ElementId[]
  readonly colour: string
}

/** Letters of a colour. */
export interface Code extends Lettering {
  readonly wires: readonly ElementId[]
}

/** A splice or a tag no element stands at: its place on a net. */
export interface Joint extends Point {
  readonly terminal: TerminalId
  readonly splice: boolean
  readonly label?: Lettering
}

export interface PlannedNet {
  /** Its first terminal. */
  readonly id: TerminalId
  readonly terminals: readonly TerminalId[]
  readonly wires: readonly ElementId[]
  readonly segments: readonly Segment[]
  /** Where three or more pieces meet. */
  readonly dots: readonly Point[]
  readonly joints: readonly Joint[]
}

/** The frame of a part around neighbouring elements; only its corners are drawn. */
export interface Frame {
  readonly part: string
  /** Clockwise from the right end of its upper edge; level and upright by turns. */
  readonly outline: readonly Point[]
  readonly title?: Lettering
}

/** A wire drawn on its own below the rest: to ground, between two poles, or between tags no element stands at. */
export interface LooseWire {
  readonly wire: ElementId
  readonly kind: 'ground' | 'plain'
  readonly x1: number
  readonly x2: number
  readonly y: number
  readonly from: Lettering
  readonly to: Lettering
  /** Ends at the chassis: its symbol stands there. */
  readonly chassis: boolean
  readonly pole: boolean
  readonly swatch?: Swatch
  readonly code?: Code
}

/** The sheet: everything placed, nothing that depends on a setting. Plain data. */
export interface Plan {
  readonly size: { readonly width: number; readonly height: number }
  readonly elements: readonly PlacedElement[]
  readonly rails: readonly Rail[]
  readonly nets: readonly PlannedNet[]
  readonly frames: readonly Frame[]
  readonly swatches: readonly Swatch[]
  readonly codes: readonly Code[]
  readonly loose: readonly LooseWire[]
  /** Places where pieces of two nets cross, or lie on each other. */
  readonly crossings: number
  /** Corners of nets. */
  readonly bends: number
}

/** What `draw` answers: where everything stands, without ink. px. */
export interface Positions {
  readonly nodes: readonly { readonly id: string; readonly x: number; readonly y: number }[]
  readonly edges: readonly {
    readonly wires: readonly ElementId[]
    readonly terminals: readonly TerminalId[]
    readonly segments: readonly (readonly [number, number, number, number])[]
  }[]
  readonly size: { readonly width: number; readonly height: number }
  readonly crossings: number
  readonly bends: number
}

/** The plan as the command line prints it. Nodes are elements in drawing order, then rails as `rail:L1`. */
export function positions(plan: Plan): Positions {
  return {
    nodes: [
      ...plan.elements.map(({ id, x, y }) => ({ id, x, y })),
      ...plan.rails.map(({ name, x, y1 }) => ({ id: `rail:${name}`, x, y: y1 })),
    ],
    edges: [
      ...plan.nets
        .filter((net) => net.segments.length > 0)
        .map((net) => ({
          wires: net.wires,
          terminals: net.terminals,
          segments: net.segments.map((s) => [s.x1, s.y1, s.x2, s.y2] as const),
        })),
      ...plan.loose.map((line) => ({
        wires: [line.wire],
        terminals: [line.from.text, line.to.text],
        segments: [[line.x1, line.y, line.x2, line.y] as const],
      })),
    ],
    size: plan.size,
    crossings: plan.crossings,
    bends: plan.bends,
  }
}

/** Class rules of the drawing and of the string. Colours and weights are the page's variables, all scoped to our sheets. */
export const drawingCss = `
.sheet{display:block;color:var(--ink);font-family:var(--text);overflow:visible}
.sheet .s{fill:none;stroke:var(--ink);stroke-width:var(--w-symbol);stroke-linecap:round;stroke-linejoin:round}
.sheet .on .s{stroke-width:3px}
.sheet .thin{fill:none;stroke:var(--ink);stroke-width:1.5}
.sheet .onink{stroke:var(--sheet)}
.sheet .paper{fill:var(--sheet)}
.sheet .paper0{fill:var(--sheet)}
.sheet .fill{fill:var(--ink)}
.sheet .blade{fill:none;stroke:var(--ink);stroke-width:var(--w-blade);stroke-linecap:round}
.sheet .link{fill:none;stroke:var(--ink);stroke-width:1.5;stroke-dasharray:2 2}
.sheet .lead,.sheet .wire{fill:none;stroke:var(--ink);stroke-width:var(--w-fed);stroke-linecap:butt;stroke-linejoin:miter}
.sheet .plain{stroke-width:var(--w-fed)}
.sheet .live{stroke-width:var(--w-live)}
.sheet .fed{stroke-width:var(--w-fed)}
.sheet .dead,.sheet .grounded{stroke-width:var(--w-dead)}
.sheet .wire.dead{stroke-dasharray:var(--dash-dead)}
.sheet .wire.rail{stroke-width:var(--w-rail)}
.sheet .wire.gline{stroke-width:var(--w-ground)}
.sheet .wire.gtick{stroke-width:1.25}
.sheet .lifted-edge{fill:none;stroke:var(--lifted-edge);stroke-width:32;stroke-linecap:square;stroke-linejoin:miter}
.sheet .lifted{fill:none;stroke:var(--sheet-2);stroke-width:30;stroke-linecap:square;stroke-linejoin:miter}
.sheet .collar{fill:none;stroke:var(--blue);stroke-width:var(--w-collar)}
.sheet .anyof{fill:none;stroke:var(--blue);stroke-width:4;stroke-linecap:round;stroke-dasharray:0 8.2}
.sheet .load{fill:none;stroke:var(--ink);stroke-width:2.5}
.sheet .load.inner{stroke-width:1.5}
.sheet .selection{fill:none;stroke:var(--blue);stroke-width:3}
.sheet .flagstaff{fill:none;stroke:var(--blue);stroke-width:2.5;stroke-linecap:round}
.sheet .flag{fill:var(--sheet);stroke:var(--blue);stroke-width:2}
.sheet .flagt{fill:var(--blue);font:700 13px var(--text)}
.sheet .staff{fill:none;stroke:var(--red);stroke-width:2.5;stroke-linecap:round}
.sheet .pennant{fill:var(--red)}
.sheet .rank{fill:var(--on-red);font:700 13px var(--text)}
.sheet .percent{fill:var(--red);font:700 13px var(--text)}
.sheet .tick{fill:none;stroke:var(--blue);stroke-width:3;stroke-linecap:round;stroke-linejoin:round}
.sheet .by{fill:var(--blue);font:700 13px var(--text)}
.sheet .differs{fill:none;stroke:var(--red);stroke-width:2.5;stroke-linecap:round}
.sheet .found{fill:none;stroke:var(--red);stroke-width:var(--w-collar);stroke-linecap:round}
.sheet .foundt{fill:var(--red);font:700 13px var(--text)}
.sheet .next{fill:var(--marker);stroke:var(--marker-edge);stroke-width:1.25}
.sheet .nextt{fill:var(--on-marker);font:800 12px var(--text)}
.sheet .ext{fill:none;stroke:var(--ink-2);stroke-width:1.25}
.sheet .dim{fill:none;stroke:var(--ink);stroke-width:1.5}
.sheet .dim.paper{fill:var(--sheet)}
.sheet .value{fill:var(--ink);font:700 13px var(--text)}
.sheet .leader{fill:none;stroke:var(--blue);stroke-width:1.5}
.sheet .reason{fill:var(--blue);font:600 13px var(--text)}
.sheet .swline{fill:none;stroke:var(--ink);stroke-width:1.25}
.sheet .frame{fill:none;stroke:var(--edge);stroke-width:1.5}
.sheet .frametitle{fill:var(--ink-2);font:600 13px var(--text)}
.sheet .name{fill:var(--ink);font:700 15px var(--text)}
.sheet .note{fill:var(--ink-2);font:400 13px var(--text)}
.sheet .tag{fill:var(--ink-2);font:600 12px var(--text)}
.sheet .code{fill:var(--ink);font:600 12px var(--text)}
.sheet .railname{fill:var(--ink);font:800 20px var(--text)}
.sheet .loosename{fill:var(--ink-2);font:600 13px var(--text)}
.sheet .area{fill:none;stroke:var(--edge);stroke-width:2}
.sheet .areat{fill:var(--ink-2);font:400 15px var(--text)}
.sheet .sheetfill{fill:var(--sheet)}
.sheet .endname{fill:var(--ink);font:800 24px var(--text)}
.sheet .bname{fill:var(--ink);font:700 20px var(--text)}
.sheet .bnote{fill:var(--ink-2);font:400 15px var(--text)}
.sheet .breason{fill:var(--blue);font:600 15px var(--text)}
.sheet .collar.big{stroke-width:3}
.sheet .point{fill:var(--sheet);stroke:var(--ink);stroke-width:3}
.sheet .pt{fill:var(--ink-2);font:600 15px var(--text)}
.sheet .hit{fill:transparent;stroke:none;pointer-events:all}
.sheet .wirehit{fill:none;stroke:transparent;stroke-width:16;stroke-linecap:square;pointer-events:stroke}
.sheet .wirehit.chosen{stroke:var(--blue);stroke-opacity:.28}
.sheet .wirehit:focus-visible{stroke:var(--blue);stroke-opacity:.55;stroke-width:10}
@media (pointer:coarse){.sheet .wirehit{stroke-width:48}.sheet .wirehit.chosen,.sheet .wirehit:focus-visible{stroke-width:16}}
.sheet [role=button]{cursor:pointer;outline:none}
.sheet .hit:focus-visible{stroke:var(--blue);stroke-width:3}
.sheet .pressable g{pointer-events:none}
${[...['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK']].map((c) => `.sheet .c-${c}{fill:var(--c-${c})}`).join('\n')}
`

const lightInk =
  '--bench:#E3E4DF;--sheet:#FAFAF7;--sheet-2:#EFEFEA;--ink:#15181B;--ink-2:#4B5157;--edge:#72777B;--rule:#C6C8C3;--lifted-edge:#C6C8C3;--blue:#1D4C9E;--red:#AD340B;--on-red:#FFF;--marker:#FFD23F;--marker-edge:transparent;--on-marker:#15181B'
const darkInk =
  '--bench:#0D1012;--sheet:#171B1E;--sheet-2:#20262A;--ink:#F1EFE8;--ink-2:#B3B9BB;--edge:#7E888D;--rule:#394147;--lifted-edge:#394147;--blue:#94BCFF;--red:#FF9B75;--on-red:#15181B;--marker:#F2C230;--marker-edge:transparent;--on-marker:#15181B'
const weights =
  '--text:"Atkinson Hyperlegible Next","Halfsplit Signs",system-ui,-apple-system,"Segoe UI",Verdana,sans-serif;--w-live:4px;--w-fed:2px;--w-dead:1.25px;--dash-dead:7 5;--w-ground:2px;--w-symbol:2px;--w-blade:3px;--w-collar:2.5px;--w-rail:6px'
/** Insulation colours by their letters (IEC 60757), our choice of shade. */
const insulation =
  '--c-BK:#1B1B1B;--c-BN:#7A4A21;--c-RD:#C4281C;--c-OG:#E8791C;--c-YE:#F2C200;--c-GN:#2E8B3D;--c-BU:#1F5FBF;--c-VT:#7B3FA0;--c-GY:#8B8F94;--c-WH:#FFFFFF;--c-PK:#F29BB0'

/** On paper: black on white; only black and white insulation shows, all else is told by its letters. */
const blackInk =
  '--bench:#fff;--sheet:#fff;--sheet-2:#fff;--ink:#000;--ink-2:#000;--edge:#000;--rule:#000;--lifted-edge:#fff;--blue:#000;--red:#000;--on-red:#fff;--marker:#fff;--marker-edge:#000;--on-marker:#000'
const blackInsulation = insulation.replace(/(--c-(?!BK|GN)..):#\w+/g, '$1:#fff').replace(/(--c-GN):#\w+/, '$1:#000')

export type Theme = 'light' | 'dark' | 'print'
const inks: Readonly<Record<Theme, string>> = { light: lightInk, dark: darkInk, print: blackInk }

/** Values for a sheet that must look right on its own, without the app's tokens. */
export function ownTokens(theme: Theme): string {
  const chips = theme === 'print' ? blackInsulation : insulation
  return `.sheet{${inks[theme]};${weights};${chips};background:var(--sheet)}`
}

/** A font as a rule that a standalone sheet carries; `data` is its file as a data address. */
export function faceRule(family: string, weight: number, data: string): string {
  return `@font-face{font-family:"${family}";font-weight:${weight};src:url(${data}) format("woff2")}`
}

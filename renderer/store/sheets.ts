/** Beginnings for a new circuit. */
export const blankSheet = `unit "New unit"

supply split-phase 240 V 60 Hz
`

/** The least that is drawn and operated: one heater, what it needs, a way to turn it on. */
export const minimalSheet = `unit "New heater"

supply split-phase 240 V 60 Hz

control switch  "Switch"  off, on

switch      SW "Switch"          1-2 when switch=on
thermostat  OT "Thermostat"      opens 68 C closes 57 C
cutoff      TC "Thermal cutoff"  opens 110 C
heater      H1 "Heater"          2000 W at 240 V

run  BK  supply.L1 > SW > OT > TC > H1
wire RD  H1.2  supply.L2
`

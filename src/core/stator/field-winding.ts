/** From here on the field winding of a field-excited alternator is open [Ω]. @source common-practice */
export const OPEN_FIELD = 50;

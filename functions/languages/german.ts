/**
 * The catalogue's texts in German, each behind its English one: a text that is changed there asks for a new translation
 * here. Words that are typed into a formula stay English, with what they mean in brackets where it is not plain.
 */
import type { Translation } from "../documents/functions-json.js";

const PURPOSES: Readonly<Record<string, string>> = {
  "Metal area of one conductor, from its size: a number of mm², an AWG or kcmil name, or a metric size (then the nominal area).":
    "Metallquerschnitt eines Leiters aus seiner Größenangabe: eine Zahl in mm², ein Name in AWG oder kcmil, oder ein metrischer Querschnitt (dann der Nennquerschnitt).",
  "Resistance of a run of conductor out and back, at the temperature of the conductor.":
    "Widerstand einer Leitung, Hin- und Rückleiter, bei der Temperatur des Leiters.",
  "Voltage drop of a run of conductor out and back, at the temperature of the conductor.":
    "Spannungsfall einer Leitung, Hin- und Rückleiter, bei der Temperatur des Leiters.",
  "Voltage drop of a run along which a current is drawn evenly, fed from one end or from both: where the voltage is lowest, or at a place.":
    "Spannungsfall einer Leitung, der über ihre Länge gleichmäßig Strom entnommen wird, von einem oder beiden Enden gespeist: wo die Spannung am niedrigsten ist oder an einer Stelle.",
  "Power that a run of conductor out and back turns into heat, at the temperature of the conductor.":
    "Leistung, die eine Leitung, Hin- und Rückleiter, in Wärme umsetzt, bei der Temperatur des Leiters.",
  "Mass of a run of conductor: metal of all its cores, and whatever else a metre of route weighs.":
    "Masse einer Leitung: das Metall aller Adern und was ein Meter Trasse sonst noch wiegt.",
  "The smallest standard size whose drop stays within a limit and that carries its current alone in free air, with its drop and loss.":
    "Der kleinste genormte Querschnitt, dessen Spannungsfall in einer Grenze bleibt und der seinen Strom einzeln in freier Luft führt, mit Spannungsfall und Verlust.",
  "How long a conductor stands a fault current before it reaches a temperature, if no heat leaves it meanwhile.":
    "Wie lange ein Leiter einen Fehlerstrom aushält, bis er eine Temperatur erreicht, wenn er unterdessen keine Wärme abgibt.",
  "Area of one core at which the price of the cable and the present cost of what it loses are least together (Kelvin's law).":
    "Querschnitt einer Ader, bei dem der Preis des Kabels und der Barwert seiner Verluste zusammen am kleinsten sind (Kelvinsches Gesetz).",
  "Temperature that the conductor of a cable settles at in still air, by convection and radiation from its surface and conduction through its insulation; #N/A where it runs away.":
    "Temperatur, die der Leiter eines Kabels in ruhender Luft annimmt, durch Konvektion und Strahlung an der Oberfläche und Wärmeleitung durch die Isolierung; #N/A, wo sie davonläuft.",
  "Current that brings the conductor of a cable in still air to a temperature: the inverse of CONDUCTOR_TEMPERATURE. The installation tables of the local code govern.":
    "Strom, der den Leiter eines Kabels in ruhender Luft auf eine Temperatur bringt: die Umkehrung von CONDUCTOR_TEMPERATURE. Maßgebend sind die Belastbarkeitstabellen der örtlichen Vorschrift.",
  "Inductance of a pair of round conductors, out and back, with the flux within them counted.":
    "Induktivität eines Paars runder Leiter, Hin- und Rückleiter, mit dem Fluss in den Leitern.",
  "Capacitance of a pair of round conductors in one dielectric, exact.":
    "Kapazität eines Paars runder Leiter in einem einzigen Dielektrikum, genau.",
  "Metal area of a flat bar, to use as the size of the other functions.":
    "Metallquerschnitt einer Flachschiene, als Größe für die anderen Funktionen.",
  "Current of a printed-board trace for a rise of its temperature, by the curve fit of IPC-2221.":
    "Strom einer Leiterbahn für eine Erwärmung, nach der Näherungskurve von IPC-2221.",
  "Voltage at a load that holds its power, behind a resistance: the upper of the two roots, where such a load is served.":
    "Spannung an einer Last konstanter Leistung hinter einem Widerstand: die obere der beiden Lösungen, bei der eine solche Last versorgt wird.",
  "The most power that can arrive behind a resistance, at half the open-circuit voltage; beyond it the voltage collapses.":
    "Die größte Leistung, die hinter einem Widerstand ankommen kann, bei halber Leerlaufspannung; darüber bricht die Spannung zusammen.",
  "Voltage of a battery from its state of charge and current: an open-circuit curve of its chemistry less the drop in its cells.":
    "Spannung einer Batterie aus Ladezustand und Strom: die Leerlaufkurve ihrer Zellchemie, vermindert um den Spannungsfall in den Zellen.",
  "The dc that a rectified line reaches: its peak at the high end of its tolerance, with no load. A tolerance that is not given is refused.":
    "Die Gleichspannung, die ein gleichgerichtetes Netz erreicht: sein Scheitelwert am oberen Ende der Toleranz, ohne Last. Ohne Angabe der Toleranz keine Antwort.",
  "Output voltage of a fixed-ratio stage: the ratio of its input, less the droop of its output resistance at the load.":
    "Ausgangsspannung eines Gleichspannungswandlers mit festem Verhältnis: Eingang mal Verhältnis, vermindert um den Spannungsfall am Ausgangswiderstand unter Last.",
  "Input current of a fixed-ratio stage: the output current times the ratio, plus what the stage draws at no load (needs input V and no-load W, or neither).":
    "Eingangsstrom eines Wandlers mit festem Verhältnis: Ausgangsstrom mal Verhältnis, dazu die Aufnahme im Leerlauf (braucht input V und no-load W, oder keines von beiden).",
  "Loss of a fixed-ratio stage: what it draws at no load plus what its output resistance turns into heat.":
    "Verlust eines Wandlers mit festem Verhältnis: Aufnahme im Leerlauf und was der Ausgangswiderstand in Wärme umsetzt.",
  "Whole-number ratios that bring all of an input range into a load's window: for each the ratio, its lowest and highest output, and the margin to either end of the window.":
    "Ganzzahlige Verhältnisse, die einen ganzen Eingangsbereich in das Spannungsfenster einer Last bringen: je Verhältnis die niedrigste und die höchste Ausgangsspannung und der Abstand zu beiden Enden des Fensters.",
  "A quantity of a fixed-ratio stage's input side as it is seen from its output; with 1 ÷ ratio, from the output back to the input.":
    "Eine Größe der Eingangsseite eines Wandlers mit festem Verhältnis, vom Ausgang aus gesehen; mit 1 ÷ ratio vom Ausgang zurück auf den Eingang.",
  "Loss polynomial of a stage from a datasheet's points of load and efficiency: fixed, linear and quadratic loss, none negative, and the worst misfit of efficiency.":
    "Verlustpolynom eines Wandlers aus Last und Wirkungsgrad im Datenblatt: fester, linearer und quadratischer Anteil, keiner negativ, und die größte Abweichung des Wirkungsgrads.",
  "Loss of a converter stage as a polynomial of its output current: fixed, linear and quadratic part.":
    "Verlust eines Gleichspannungswandlers als Polynom des Ausgangsstroms: fester, linearer und quadratischer Anteil.",
  "Efficiency of a converter stage at an output current, from its loss polynomial.":
    "Wirkungsgrad eines Gleichspannungswandlers bei einem Ausgangsstrom, aus seinem Verlustpolynom.",
  "Output current at which a stage is most efficient, where its fixed and quadratic losses are equal, and the efficiency there.":
    "Ausgangsstrom, bei dem ein Wandler den besten Wirkungsgrad hat, wo fester und quadratischer Verlust gleich sind, und der Wirkungsgrad dort.",
  "Power that a stage may give in warm surroundings: its rating up to a knee, then on a straight line down to none.":
    "Leistung, die ein Wandler in warmer Umgebung abgeben darf: Bemessungsleistung bis zu einem Knick, dann auf einer Geraden bis null.",
  "The feed table of the blocks of a schedule: each item with its resistance, rating, losses, loads with margin, mass and price worked out, in feeding order. The other CHAIN functions read it.":
    "Die Speisetabelle aus den Blöcken einer Aufstellung: jedes Teil mit Widerstand, Bemessungswert, Verlusten, Lasten mit Zuschlag, Masse und Preis, in der Reihenfolge der Speisung. Die anderen CHAIN-Funktionen lesen sie.",
  "Efficiency of stages in a row: the product of all efficiencies given. Blank cells in a range are passed over; 0 is refused.":
    "Wirkungsgrad hintereinander liegender Stufen: das Produkt aller angegebenen Wirkungsgrade. Leere Zellen eines Bereichs werden übergangen; 0 wird nicht angenommen.",
  "Solves a feed table: voltage, current, power and loss of every row at the chosen loads and supply voltage, with a note for every doubt. Spills a header and one row for each item.":
    "Löst eine Speisetabelle: Spannung, Strom, Leistung und Verlust jeder Zeile bei den gewählten Lasten und der Speisespannung, mit einem Hinweis zu jedem Zweifel. Läuft in eine Kopfzeile und eine Zeile je Teil über.",
  "One number over a whole feed table: supply power, load power, loss, efficiency, the least margin to a window, or the closing error (supply power less loads and losses).":
    "Eine Zahl über eine ganze Speisetabelle: Speiseleistung, Lastleistung, Verlust, Wirkungsgrad, der kleinste Abstand zu einem Fenster, oder der Bilanzfehler (Speiseleistung weniger Lasten und Verluste).",
  "How far all loads can grow together: multiple at which the voltage collapses, the item where it does, multiple at which the first item falls below its window or exceeds its rating, and that item.":
    "Wie weit alle Lasten gemeinsam wachsen können: Vielfaches, bei dem die Spannung zusammenbricht, und an welchem Teil; Vielfaches, bei dem das erste Teil sein Fenster oder seinen Bemessungswert verlässt, und dieses Teil.",
  "The worst each row of a feed table sees: supply lowest to highest, loads light, nominal or peak and any of them less or off, every tolerance within its ends, and with units lost 1 also one unit fewer on each row with several in parallel.":
    "Das Schlimmste für jede Zeile der Speisetabelle: Speisespannung niedrigste bis höchste, Lasten light, nominal oder peak, jede auch kleiner oder aus, jede Toleranz zwischen ihren Enden; mit units lost 1 auch eine parallele Einheit je Zeile weniger.",
  "A feed table at its nine operating points: supply lowest, nominal and highest, loads light, nominal and peak. Powers, efficiency, least margin to a window and highest loading, each with the item that has it, and the closing error.":
    "Eine Speisetabelle in neun Betriebspunkten: Speisespannung lowest, nominal, highest, Lasten light, nominal, peak. Leistungen, Wirkungsgrad, kleinster Abstand zum Fenster und höchste Auslastung, je mit dem Teil, und der Bilanzfehler.",
  "What proves the operating point of a feed table: for each supply, or supplies that feed together, whether it is the upper one, the least pivot of its equations, how much of it the loads leave, and the multiple of the loads that collapses.":
    "Was den Betriebspunkt einer Speisetabelle beweist: je Quelle, oder Quellen, die gemeinsam speisen, ob er der obere ist, das kleinste Pivot seiner Gleichungen, was die Lasten davon lassen, und das Vielfache der Lasten, das zusammenbricht.",
  "What each outage leaves of a feed table: every supply, line, stage and tie opened in turn. Loads that are dark, the load whose voltage falls most, the least margin to a window and the highest loading, each with its item.":
    "Was jeder Ausfall von einer Speisetabelle lässt: jede Quelle, Leitung, jeder Wandler und Kuppelzweig der Reihe nach geöffnet. Dunkle Lasten, die Last mit dem größten Spannungsfall, kleinster Abstand zum Fenster, höchste Auslastung, je mit Teil.",
  "What flows between the supplies of a feed table while nothing draws, each in turn at the top of its window and all others at the bottom of theirs: the most that each item carries then, and what it loses.":
    "Was zwischen den Quellen einer Speisetabelle fließt, während nichts Strom nimmt, jede der Reihe nach an der oberen, alle anderen an der unteren Grenze ihres Fensters: das meiste, was jedes Teil dann führt, und sein Verlust.",
  "Which inputs matter: a result of a feed table with each input that may vary at its low and at its high end, the others as entered. Widest swing first; below the headers the result as entered.":
    "Welche Eingaben zählen: ein Ergebnis einer Speisetabelle mit jeder Eingabe, die schwanken kann, an ihrem unteren und ihrem oberen Ende, die anderen wie eingegeben. Die größte Spanne zuerst; unter der Kopfzeile das Ergebnis wie eingegeben.",
  "How far a result of a feed table spreads over its tolerances: mean, standard uncertainty, percentiles, extremes within the tolerances, and beside them the root of the sum of squares. On the right the samples in classes.":
    "Wie weit ein Ergebnis einer Speisetabelle über ihre Toleranzen streut: Mittelwert, Standardunsicherheit, Perzentile, Extremwerte innerhalb der Toleranzen und daneben die Wurzel der Quadratsumme. Rechts die Stichproben in Klassen.",
  "Which inputs make a result of a feed table spread: the part of its variance that each input or group brings alone, and in all that it does with others. Greatest first; what is left of 1 below.":
    "Welche Eingaben ein Ergebnis einer Speisetabelle streuen lassen: der Anteil an seiner Varianz, den jede Eingabe oder Gruppe allein bringt und mit allem, was sie mit anderen zusammen tut. Der größte zuerst; darunter, was an 1 fehlt.",
  "The highest voltage of every item of a feed table in service and after one fault of any stage, and how it stands to the band that people may touch. A comparison with published limits; it approves nothing.":
    "Die höchste Spannung jedes Teils einer Speisetabelle im Betrieb und nach einem Fehler eines Wandlers, und wie sie zum Berührungsspannungsband steht. Ein Vergleich mit veröffentlichten Grenzwerten; er gibt nichts frei.",
  "Cables and stages of a feed table as a proposal lists them: what they are, and the highest current, drop, loss and output that each has in the nine cases; of stages also watts per litre; mass, volume and price.":
    "Kabel und Wandler einer Speisetabelle wie in einem Angebot: was sie sind, größter Strom, Spannungsfall, Verlust und größte Abgabe in den neun Fällen; bei Wandlern auch Watt je Liter; Masse, Volumen und Preis.",
  "Every check of a feed table in every case, against what is asked for: what is found in the worst case, its limit, whether it holds, and what to enter or to change. A screening aid; it approves nothing.":
    "Jede Prüfung einer Speisetabelle in jedem Fall gegen das Geforderte: Befund im schlimmsten Fall, Grenzwert, ob er eingehalten ist, und was einzutragen oder zu ändern ist. Eine Hilfe zur Vorauswahl; sie gibt nichts frei.",
  "Two versions of a feed side by side: figures of the whole feed over nine cases, of each item in one case, and the checks that are judged otherwise; differences B − A with a word for each. It judges nothing itself.":
    "Zwei Fassungen einer Speisung nebeneinander: Werte der ganzen Speisung über neun Fälle, jedes Teils in einem Fall, und anders beurteilte Prüfungen; Unterschiede B − A, je mit einem Wort. Sie beurteilt selbst nichts.",
  "How units side by side on one bus share its load: current and share of each, and in the last row the bus voltage.":
    "Wie parallele Einheiten an einer Sammelschiene die Last teilen: Strom und Anteil jeder Einheit, in der letzten Zeile die Spannung der Schiene.",
  "Like units that a load needs so that the worst-placed one stays within its rating; with spare units, so many may be lost.":
    "Gleiche Einheiten, die eine Last braucht, damit auch die am stärksten belastete im Bemessungswert bleibt; mit spare units dürfen so viele ausfallen.",
  "Current of the worst-placed of like units in parallel: its voltage highest and its resistance lowest, all others the opposite.":
    "Strom der am stärksten belasteten von gleichen parallelen Einheiten: ihre Spannung am höchsten, ihr Widerstand am kleinsten, alle anderen umgekehrt.",
  "The touch-voltage band of a voltage and its limit, as text that begins with the band. A comparison with published limits; it approves nothing.":
    "Das Berührungsspannungsband einer Spannung und sein Grenzwert, als Text, der mit dem Band beginnt. Ein Vergleich mit veröffentlichten Grenzwerten; er gibt nichts frei.",
  "The highest voltage of a touch-voltage band; not available for a band without a limit.":
    "Die höchste Spannung eines Berührungsspannungsbands; nicht verfügbar für ein Band ohne Grenzwert.",
  "The touch-voltage band of a stage's output after one fault in that stage, as text that begins with the band; not determined for a step-up without a trip. It approves nothing.":
    "Das Berührungsspannungsband am Ausgang eines Wandlers nach einem Fehler in ihm, als Text, der mit dem Band beginnt; nicht bestimmt für einen Hochsetzsteller ohne Abschaltung. Gibt nichts frei.",
  "The highest voltage behind fixed ratios at no load: supply highest × ratio × (1 + tolerance). A tolerance that is not given is refused.":
    "Die höchste Spannung hinter festen Verhältnissen im Leerlauf: höchste Speisespannung × ratio × (1 + tolerance). Ohne Angabe der Toleranz keine Antwort.",
  "How long a capacitance takes to fall from one voltage to another through a discharge resistor. Wait, then verify by measurement.":
    "Wie lange eine Kapazität braucht, um sich über einen Entladewiderstand von einer Spannung auf eine andere zu entladen. Warten, dann durch Messen prüfen.",
  "Energy that a capacitance holds at a voltage.": "Energie einer Kapazität bei einer Spannung.",
  "Steady current of a short circuit: the voltage over all resistance up to the fault, or the supply's current limit if that is smaller; of the greatest, without that limit.":
    "Dauerkurzschlussstrom: Spannung durch den gesamten Widerstand bis zur Fehlerstelle, oder die Strombegrenzung der Quelle, wenn sie kleiner ist; beim größten Strom ohne diese Begrenzung.",
  "The next standard fuse rating at or above the load current times a factor. Its dc voltage rating must cover the supply's highest voltage.":
    "Der nächste genormte Bemessungsstrom einer Sicherung ab Laststrom mal Faktor. Ihre Bemessungs-Gleichspannung muss die höchste Speisespannung abdecken.",
  "Length of run, one way, at which a short circuit at its far end still draws the current that clears the fuse in the time wanted.":
    "Länge der Leitung, einfach, bei der ein Kurzschluss am fernen Ende noch den Strom zieht, der die Sicherung in der gewünschten Zeit abschaltet.",
  "Longest time in which IEC 60364-4-41 asks for a fault to earth in a dc circuit to be disconnected, by voltage and kind of circuit. Figures from memory.":
    "Längste Zeit, in der IEC 60364-4-41 das Abschalten eines Erdschlusses in einem Gleichstromkreis verlangt, nach Spannung und Art des Stromkreises. Zahlen aus dem Gedächtnis.",
  "Capacitance that feeds a load of constant power for a time, from one voltage down to another.":
    "Kapazität, die eine Last konstanter Leistung eine Zeit lang speist, von einer Spannung hinab auf eine andere.",
  "How long a capacitance feeds a load of constant power, from one voltage down to another.":
    "Wie lange eine Kapazität eine Last konstanter Leistung speist, von einer Spannung hinab auf eine andere.",
  "Resistance that charges a capacitance to a part of the supply's voltage in a time, with no load meanwhile.":
    "Vorladewiderstand, der eine Kapazität in einer Zeit auf einen Teil der Speisespannung lädt, unterdessen ohne Last.",
  "Energy that the precharge resistor turns into heat while a capacitance is charged, whatever its resistance.":
    "Energie, die der Vorladewiderstand in Wärme umsetzt, während eine Kapazität geladen wird, gleich wie groß er ist.",
  "How far the voltage sags at its deepest when the load current steps up, the static drop included; with bus V for a load that holds its power, #N/A where it collapses the bus.":
    "Wie weit die Spannung bei einem Lastsprung höchstens einbricht, der bleibende Spannungsfall eingeschlossen; mit bus V für eine Last konstanter Leistung, #N/A, wo sie die Spannung zusammenbrechen lässt.",
  "Critical constant power over the load's: above 1 small disturbances of a bus behind a line, with a capacitor on it, die out; a large step can still collapse it below about 1.5.":
    "Kritische konstante Leistung durch die der Last: über 1 klingen kleine Störungen einer Schiene mit Kondensator hinter einer Leitung ab; ein großer Sprung kann sie unter etwa 1,5 noch zusammenbrechen lassen.",
  "Energy lost over a load profile: each loss times the hours that it lasts.":
    "Verlustenergie über ein Lastprofil: jeder Verlust mal die Stunden, die er dauert.",
  "Present cost of energy bought every year for some years, paid at year end, at a discount rate.":
    "Barwert der Energie, die einige Jahre lang jedes Jahr gekauft und am Jahresende bezahlt wird, bei einem Zinssatz.",
  "The version of Downfeed that calculates this workbook, as text.":
    "Die Version von Downfeed, die diese Arbeitsmappe berechnet, als Text.",
};

const CONDUCTORS: Readonly<Record<string, string>> = {
  'Size of one conductor: a number of mm² of metal, or text like "2.5 mm²", "12 AWG", "2/0 AWG", "250 kcmil"':
    'Größe eines Leiters: eine Zahl in mm² Metall, oder Text wie "2.5 mm²", "12 AWG", "2/0 AWG", "250 kcmil"',
  "Length of the route, one way": "Länge der Trasse, einfach",
  "Temperature of the conductor, not of the air: the hottest for drop, loss and the least fault current; the coldest for the greatest fault current, for sharing and for stability":
    "Temperatur des Leiters, nicht der Luft: die höchste für Spannungsfall, Verlust und kleinsten Fehlerstrom; die niedrigste für den größten Fehlerstrom, Stromaufteilung und Stabilität",
  "Annealed copper unless told otherwise; or a row of two cells: resistivity at 20 °C in Ω·m, coefficient per K":
    "Weichkupfer (copper), wenn nicht anders angegeben; oder zwei Zellen einer Zeile: Resistivität bei 20 °C in Ω·m, Beiwert je K",
  "Not given: geometric for a number, class 2 (IEC 60228) for a metric size, solid for AWG, stranded for kcmil. Greatest resistance: class 5 tinned for a metric size, stranded tinned for AWG":
    "Ohne Angabe: geometric bei einer Zahl, class 2 (IEC 60228) bei metrischem Querschnitt, solid bei AWG, stranded bei kcmil. Größter Widerstand: class 5 tinned bei metrischem Querschnitt, stranded tinned bei AWG",
  "Cores per pole, a whole number; 1 unless told otherwise":
    "Adern je Pol, eine ganze Zahl; 1, wenn nicht anders angegeben",
  "Lengths in the loop: 2 out and back (taken if not given), 1 where the return is counted elsewhere":
    "Längen in der Schleife: 2 hin und zurück (Vorgabe), 1, wo der Rückleiter anderswo gezählt wird",
  "Drawn from each metre of the route": "Von jedem Meter der Trasse entnommen",
  "Of the near end, for a run that is fed from both ends":
    "Des nahen Endes einer Leitung, die von beiden Enden gespeist wird",
  "Of the far end, for a run that is fed from both ends":
    "Des fernen Endes einer Leitung, die von beiden Enden gespeist wird",
  "Distance from the near end; where the voltage is lowest unless told otherwise":
    "Abstand vom nahen Ende; ohne Angabe wo die Spannung am niedrigsten ist",
  "Current of the pole, all its cores together": "Strom des Pols, alle seine Adern zusammen",
  "all that is not conductor, for a metre of route; none unless told otherwise":
    "alles, was nicht Leiter ist, je Meter Trasse; nichts, wenn nicht anders angegeben",
  "that the loop may drop": "zulässiger Spannungsfall der Schleife",
  "metric (default, IEC 60228) or AWG with kcmil above 4/0":
    "metric (Vorgabe, IEC 60228) oder AWG, über 4/0 in kcmil",
  "Of one core: the greatest, and the least too where its clearing takes longer":
    "Einer Ader: der größte, und auch der kleinste, wo das Abschalten dann länger dauert",
  "Conductor temperature before the fault: its hottest in service":
    "Temperatur des Leiters vor dem Fehler: die höchste im Betrieb",
  "That the insulation stands: PVC 160, XLPE 250; the lowest of what is near it":
    "Die die Isolierung aushält: PVC 160, XLPE 250; die niedrigste von allem in der Nähe",
  "Of the pole, root mean square over the hours that count":
    "Des Pols, Effektivwert über die Stunden, die zählen",
  "That the current flows": "In denen der Strom fließt",
  "In the first year": "Im ersten Jahr",
  "years that count": "Jahre, die zählen",
  "part of one per year: 0.08 is 8 %; 0 is none":
    "Teil von eins je Jahr: 0,08 ist 8 %; 0 ist keiner",
  "By which a metre of route, the whole cable, costs more for each mm² of one core":
    "Um den ein Meter Trasse, das ganze Kabel, je mm² einer Ader mehr kostet",
  "Temperature of the conductor under that current: hotter asks for more metal":
    "Temperatur des Leiters bei diesem Strom: je heißer, desto mehr Metall",
  "part by which the price rises each year; none unless told otherwise":
    "Teil, um den der Preis jedes Jahr steigt; keiner, wenn nicht anders angegeben",
  "Current of one core: the largest counts": "Strom einer Ader: der größte zählt",
  "Temperature of the air around the cable: the hottest counts, for temperature and for current":
    "Temperatur der Luft um das Kabel: die höchste zählt, für Temperatur und Strom",
  "Diameter over everything, of the surface that meets the air":
    "Durchmesser über alles, der Oberfläche an der Luft",
  "Cores inside that diameter that carry the current, a whole number: 2 for out and back in one cable":
    "Adern in diesem Durchmesser, die den Strom führen, eine ganze Zahl: 2 für hin und zurück in einem Kabel",
  "PVC unless told otherwise; none for a bare conductor":
    "PVC, wenn nicht anders angegeben; none (keine) für einen blanken Leiter",
  "Grouping factor of the cables side by side, above 0 and at most 1: the smallest counts; not given: 1, alone, the best case":
    "Häufungsfaktor der Kabel nebeneinander, über 0 und höchstens 1: der kleinste zählt; ohne Angabe: 1, einzeln, der günstigste Fall",
  "Above the sea, up to 20,000: the highest counts; not given: sea level, the best case":
    "Über dem Meer, bis 20.000: die größte zählt; ohne Angabe: Meereshöhe, der günstigste Fall",
  "On the cable, about 1000 in full sun: the most counts; not given: none, the best case":
    "Auf das Kabel, etwa 1000 in voller Sonne: das Meiste zählt; ohne Angabe: keine, der günstigste Fall",
  "Temperature that the conductor may reach: the lowest of its insulation, its terminals and what its resistance is counted at":
    "Temperatur, die der Leiter erreichen darf: die niedrigste von Isolierung, Klemmen und der, mit der sein Widerstand gerechnet ist",
  "Of the metal of one conductor": "Des Metalls eines Leiters",
  "Centre to centre; the widest gives the most inductance and the least capacitance, the closest the other way round":
    "Mitte zu Mitte; der weiteste gibt die größte Induktivität und die kleinste Kapazität, der engste umgekehrt",
  "Of what is around them; 1, air, unless told otherwise":
    "Dessen, was sie umgibt; 1, Luft, wenn nicht anders angegeben",
  "Of the bar": "Der Schiene",
  "Of the trace": "Der Leiterbahn",
  "Of its copper: 35 is 1 oz per square foot": "Ihres Kupfers: 35 ist 1 oz je Quadratfuß",
  "Of the trace above the board around it": "Der Leiterbahn über der Leiterplatte um sie",
  "outer or inner": "outer (außen) oder inner (innen)",
};

const SUPPLIES_AND_STAGES: Readonly<Record<string, string>> = {
  "voltage of the supply with nothing drawn: its lowest for the lowest voltage and the limit":
    "Leerlaufspannung der Quelle: die niedrigste für die niedrigste Spannung und die Grenze",
  "of the supply and all of the loop up to the load: its greatest, hot, for the lowest voltage and the limit":
    "der Quelle und der ganzen Schleife bis zur Last: der größte, heiß, für die niedrigste Spannung und die Grenze",
  "power that the load holds, its greatest for the lowest voltage; 0 is no load, the highest voltage":
    "konstante Leistung der Last, die größte für die niedrigste Spannung; 0 ist Leerlauf, die höchste Spannung",
  "whole number": "ganze Zahl",
  "0 (empty) to 1 (full): the least for the lowest voltage, 1 for the highest":
    "0 (leer) bis 1 (voll): der kleinste für die niedrigste Spannung, 1 für die höchste",
  "of the whole battery, discharge positive, its greatest for the lowest voltage; 0 is at rest":
    "der ganzen Batterie, Entladen positiv, der größte für die niedrigste Spannung; 0 ist in Ruhe",
  "of one cell, its greatest for the lowest voltage: coldest, at low charge and end of life":
    "einer Zelle, der größte für die niedrigste Spannung: am kältesten, wenig geladen und am Ende der Lebensdauer",
  "NMC: NMC 811 with graphite and silicon": "NMC: NMC 811 mit Graphit und Silizium",
  "whole number; 1 unless told otherwise": "ganze Zahl; 1, wenn nicht anders angegeben",
  "nominal, of the line that is rectified, phase to neutral or phase to phase":
    "Nennwert des gleichgerichteten Netzes, Außenleiter gegen Neutralleiter oder gegen Außenleiter",
  'fraction of the line voltage, its greatest, or "exact"':
    'Bruchteil der Netzspannung, der größte, oder "exact"',
  "voltage at the input of the stage": "Spannung am Eingang des Wandlers",
  "output ÷ input voltage: 1/8 steps down, 4 steps up":
    "Ausgangs- ÷ Eingangsspannung: 1/8 setzt herab, 4 setzt herauf",
  "current out of the stage; 0 is no load": "Ausgangsstrom des Wandlers; 0 ist Leerlauf",
  "output resistance of the stage when hot, its greatest":
    "Ausgangswiderstand des Wandlers im warmen Zustand, der größte",
  "what the stage draws with nothing on its output":
    "Aufnahme des Wandlers mit unbelastetem Ausgang",
  "at the stage: the supply's lowest less the drop at full load":
    "am Wandler: die niedrigste der Quelle weniger Spannungsfall bei Volllast",
  "at the stage: the supply's highest, without drop":
    "am Wandler: die höchste der Quelle, ohne Spannungsfall",
  "lowest voltage that the load allows": "niedrigste Spannung, die die Last erlaubt",
  "highest voltage that the load allows": "höchste Spannung, die die Last erlaubt",
  'fraction of the ratio, its greatest, or "exact"':
    'Bruchteil des Verhältnisses, der größte, oder "exact"',
  "at full load, for the droop; none unless told otherwise":
    "bei Volllast, für den Spannungsfall; keiner, wenn nicht anders angegeben",
  "of the stage when hot, its greatest; none unless told otherwise":
    "des Wandlers im warmen Zustand, der größte; keiner, wenn nicht anders angegeben",
  "at the input: Ω, H, F, V or A": "am Eingang: Ω, H, F, V oder A",
  "output ÷ input voltage: 1/8 steps down": "Ausgangs- ÷ Eingangsspannung: 1/8 setzt herab",
  "what the value is": "was der Wert ist",
  "output voltage of the stage": "Ausgangsspannung des Wandlers",
  "output power of each point, three different ones or more":
    "Ausgangsleistung jedes Punkts, drei verschiedene oder mehr",
  "of each point, as a fraction: 0.95": "jedes Punkts, als Bruchteil: 0,95",
  "loss that is there at any current": "Verlust, der bei jedem Strom da ist",
  "loss for each A of output current": "Verlust je A Ausgangsstrom",
  "loss for each A² of output current": "Verlust je A² Ausgangsstrom",
  "current out of the stage, above 0": "Ausgangsstrom des Wandlers, über 0",
  "up to the knee": "bis zum Knick",
  "of the air or plate that the rating is for, its hottest":
    "der Luft oder Montageplatte, für die der Bemessungswert gilt, die höchste",
  "where the rating begins to fall": "wo der Bemessungswert zu sinken beginnt",
  "where no power is left": "wo keine Leistung mehr bleibt",
};

const FEEDS: Readonly<Record<string, string>> = {
  "ranges in any order, each with a header row that begins with the block's name: Supply, Stage, Cable, In line, Load, Location, Stage type, Asked for":
    "Bereiche in beliebiger Reihenfolge, jeder mit einer Kopfzeile, die mit dem Namen des Blocks beginnt: Supply, Stage, Cable, In line, Load, Location, Stage type, Asked for",
  "of one stage, above 0 and at most 1; a number, a range or several of both":
    "einer Stufe, über 0 und höchstens 1; eine Zahl, ein Bereich oder mehrere von beiden",
  "the version that B is compared with: range with a header row, as CHAIN_TABLE gives it":
    "die Fassung, mit der B verglichen wird: Bereich mit einer Kopfzeile, wie ihn CHAIN_TABLE liefert",
  "the other version, its items lined up with those of A by their names":
    "die andere Fassung, deren Teile mit denen von A nach ihren Namen zusammengestellt werden",
  "range of label and value that A is held against, as in CHAIN_CHECKS; empty: nothing is asked for":
    "Bereich aus Bezeichnung und Wert, gegen den A geprüft wird, wie in CHAIN_CHECKS; leer: nichts ist gefordert",
  "the same for B; empty: as for A": "dasselbe für B; leer: wie für A",
  "range with a header row: Item, Fed from, Kind and the columns that its rows need":
    "Bereich mit einer Kopfzeile: Item, Fed from, Kind und die Spalten, die seine Zeilen brauchen",
  "light, nominal (default) or peak, or a number that multiplies Load: 0 is no load":
    "light (schwach), nominal (Nennwert, Vorgabe) oder peak (Spitze), oder eine Zahl, mit der Load malgenommen wird: 0 ist Leerlauf",
  "lowest, nominal (default) or highest of the supply's window, or its open-circuit voltage":
    "lowest (niedrigste), nominal (Nennwert, Vorgabe) oder highest (höchste) im Fenster der Quelle, oder ihre Leerlaufspannung",
  "which number": "welche Zahl",
  "how many, best a power of two": "wie viele, am besten eine Zweierpotenz",
  "a whole number, 0 if left out: the same seed gives the same samples":
    "eine ganze Zahl, 0 wenn weggelassen: derselbe Startwert gibt dieselben Stichproben",
  "whose; blank for the whole feed; voltages, currents and conductor temperatures are those of an item":
    "wessen; leer für die ganze Speisung; Spannungen, Ströme und Leitertemperaturen sind die eines Teils",
  "range with a header row: Item, Column, Tolerance, Distribution, Group; what varies beside, or in place of, what the feed table's Tolerance says":
    "Bereich mit einer Kopfzeile: Item, Column, Tolerance, Distribution, Group; was schwankt, neben der Tolerance der Speisetabelle oder an ihrer Stelle",
  "0 (default) or 1": "0 (Vorgabe) oder 1",
  'range of label and value, further columns not read: Framework (IEC 62368-1, IEC 60364-4-41, ISO 6469-3, US workplace), Place (dry, wet or immersed; empty counts as wet) and, for checks, the limits that are asked; or "not asked"':
    'Bereich aus Bezeichnung und Wert: Framework (IEC 62368-1, IEC 60364-4-41, ISO 6469-3, US workplace), Place (dry, wet oder immersed; leer zählt als wet) und für Prüfungen die geforderten Grenzen, oder "not asked"; weitere Spalten ungelesen',
  "voltage of each unit at no load": "Leerlaufspannung jeder Einheit",
  "output resistance or droop of each unit, its own lead to the bus included: coldest, the least, shares worst; hottest sags most":
    "Ausgangswiderstand oder Statik jeder Einheit mit ihrer eigenen Zuleitung zur Schiene: am kältesten, am kleinsten, teilt am schlechtesten; am heißesten sinkt am tiefsten",
  "load on the bus; 0 A or 0 W is no load": "Last an der Schiene; 0 A oder 0 W ist Leerlauf",
  "current (default), power or resistance":
    "current (Strom, Vorgabe), power (Leistung) oder resistance (Widerstand)",
  "blocked (default): no unit is fed by the others, as behind an ideal diode; allowed":
    "blocked (gesperrt, Vorgabe): keine Einheit wird von den anderen gespeist, wie hinter einer idealen Diode; allowed (zugelassen)",
  "current of the load, its greatest": "Strom der Last, der größte",
  "continuous, of one unit, its least: at its hottest":
    "dauernd, einer Einheit, der kleinste: am heißesten",
  "voltage of one unit at no load, its highest": "Leerlaufspannung einer Einheit, die höchste",
  "± part of set V between units, its greatest; 0 is none":
    "± Teil von set V zwischen den Einheiten, der größte; 0 ist keiner",
  "of one unit, droop and its own lead to the bus included, at its coldest: the least shares worst":
    "einer Einheit, mit Statik und eigener Zuleitung zur Schiene, am kältesten: der kleinste teilt am schlechtesten",
  "± part of output resistance between units, its greatest; 0 is none":
    "± Teil von output resistance zwischen den Einheiten, der größte; 0 ist keiner",
  "units that may be lost; none unless told otherwise":
    "Einheiten, die ausfallen dürfen; keine, wenn nicht anders angegeben",
  "whole number, the fewest that are on": "ganze Zahl, die wenigsten, die eingeschaltet sind",
  "blocked (default), or allowed": "blocked (gesperrt, Vorgabe) oder allowed (zugelassen)",
};

const SAFETY_AND_PROTECTION: Readonly<Record<string, string>> = {
  "highest; the larger of pole to pole and pole to earth":
    "höchste; die größere von Pol zu Pol und Pol gegen Erde",
  "whose limits: the one that governs the equipment":
    "wessen Grenzwerte: der für das Betriebsmittel maßgebenden Norm",
  "of skin and place; unknown counts as wet":
    "der Haut und des Orts; unbekannt zählt als wet (nass)",
  "dc if not given; ac is a sine of at most 1 kHz":
    "dc (Gleichspannung), wenn nicht angegeben; ac ist ein Sinus von höchstens 1 kHz",
  "alternating part of dc; if not given none is counted, and the answer says so":
    "Wechselanteil von dc (Gleichspannung); ohne Angabe wird keiner gezählt, und die Antwort sagt es",
  "of the alternating part; √3 × rms if not given":
    "des Wechselanteils; √3 × rms (Effektivwert), wenn nicht angegeben",
  "a band of that framework": "ein Band dieser Norm",
  "highest in service": "höchste im Betrieb",
  "between input and output; unknown counts as none":
    "zwischen Eingang und Ausgang; unbekannt zählt als none (keine)",
  "where a regulated output is stopped when its regulation is lost; of a fixed ratio its output V. Without it a step-up is not determined, and a step-down counts as rising to its input":
    "bei der ein geregelter Ausgang abgeschaltet wird, wenn die Regelung ausfällt; bei festem Verhältnis die Ausgangsspannung in V. Ohne sie ist ein Hochsetzsteller nicht bestimmt, ein Tiefsetzsteller zählt als bis zum Eingang steigend",
  "no load, with float charge and regeneration": "ohne Last, mit Erhaltungsladung und Rückspeisung",
  "output ÷ input; of a path the product of its stages":
    "Ausgang ÷ Eingang; eines Pfads das Produkt seiner Stufen",
  'fraction of the ratio, its greatest, or "exact"; of a path the product of (1 + t), less 1':
    'Bruchteil des Verhältnisses, der größte, oder "exact"; eines Pfads das Produkt der (1 + t), weniger 1',
  "all of it on the node, at the top of its tolerance":
    "die gesamte am Knoten, am oberen Ende der Toleranz",
  "the highest voltage it can be charged to":
    "die höchste Spannung, auf die sie geladen werden kann",
  "the voltage wanted: 60 V is common": "die gewünschte Spannung: 60 V sind üblich",
  "of the discharge resistor, at the top of its tolerance":
    "des Entladewiderstands, am oberen Ende der Toleranz",
  "of the supply: its lowest for the least fault current, its highest for the greatest":
    "der Quelle: die niedrigste für den kleinsten Fehlerstrom, die höchste für den größten",
  "internal, of the supply: its greatest for the least fault current, its least for the greatest; 0 is a stiff one":
    "innerer, der Quelle: der größte für den kleinsten Fehlerstrom, der kleinste für den größten; 0 ist eine starre",
  "of both conductors up to the fault: at their hottest for the least fault current, coldest for the greatest":
    "beider Leiter bis zur Fehlerstelle: am heißesten für den kleinsten Fehlerstrom, am kältesten für den größten",
  "that the supply holds, its least; none unless told otherwise; not counted for the greatest fault current":
    "auf den die Quelle begrenzt, der kleinste; keiner, wenn nicht anders angegeben; zählt nicht für den größten Fehlerstrom",
  "least (default): does the fuse clear; greatest: what it must break and the cable withstand, no current limit counted":
    "least (kleinster, Vorgabe): ob die Sicherung abschaltet; greatest (größter): was sie unterbrechen und das Kabel aushalten muss, ohne Strombegrenzung",
  "continuous, its greatest": "dauernd, der größte",
  "on the load current, 1 or more: 1.25 is common practice":
    "auf den Laststrom, 1 oder mehr: 1,25 ist üblich",
  "as made (default): R10 up to 20 A, the steps of IEC 60269-1 above; or R10, or low voltage, the steps of IEC 60269-1, alone":
    "as made (wie gefertigt, Vorgabe): R10 bis 20 A, darüber die Stufen von IEC 60269-1; oder nur R10, oder nur low voltage, die Stufen von IEC 60269-1",
  "of the supply, its lowest": "der Quelle, die niedrigste",
  "internal, of the supply, its greatest; 0 is a stiff one":
    "innerer, der Quelle, der größte; 0 ist eine starre",
  "that clears the fuse in the time wanted, the greatest of the band of its curve":
    "der die Sicherung in der gewünschten Zeit abschaltet, der größte im Streuband ihrer Kennlinie",
  "of the conductor at the end of the fault, its hottest":
    "des Leiters am Ende des Fehlers, die höchste",
  "that the supply holds, its least; none unless told otherwise":
    "auf den die Quelle begrenzt, der kleinste; keiner, wenn nicht anders angegeben",
  "nominal, from a pole to earth; of a supply that is not earthed the voltage between its poles, its highest, is on the safe side":
    "Nennwert, von einem Pol gegen Erde; bei einer nicht geerdeten Quelle liegt die Spannung zwischen den Polen, die höchste, auf der sicheren Seite",
  "TN or TT, final or distribution; final: socket-outlets up to 63 A or fixed equipment up to 32 A; a final circuit asks for the shorter time":
    "TN oder TT, final (Endstromkreis) oder distribution (Verteilungsstromkreis); final: Steckdosen bis 63 A oder feste Betriebsmittel bis 32 A; ein Endstromkreis verlangt die kürzere Zeit",
};

const TRANSIENTS_AND_COST: Readonly<Record<string, string>> = {
  "at the load, which holds it: its greatest": "an der Last, konstant: die größte",
  wanted: "gewünscht",
  "of the capacitor when the supply goes, its lowest":
    "des Kondensators, wenn die Speisung ausfällt, die niedrigste",
  "at which the load, or the stage before it, gives up: its highest":
    "bei der die Last, oder der Wandler davor, aussetzt: die höchste",
  "of what lies between capacitor and load, its least; 1 if the load hangs on the capacitor":
    "dessen, was zwischen Kondensator und Last liegt, der kleinste; 1, wenn die Last am Kondensator hängt",
  "all of it, its least: low end of tolerance, cold, end of life":
    "die gesamte, die kleinste: unteres Ende der Toleranz, kalt, Ende der Lebensdauer",
  "all of it, its greatest: high end of tolerance":
    "die gesamte, die größte: oberes Ende der Toleranz",
  "part of the supply's voltage at the end, below 1: 0.95 is common":
    "Teil der Speisespannung am Ende, unter 1: 0,95 ist üblich",
  "of the supply, its highest": "der Quelle, die höchste",
  "by which the load's current rises at once, its greatest":
    "um den der Laststrom sprunghaft steigt, der größte",
  "of the supply and the loop; try both ends: the greatest, hot, sags most at rest, the least, cold, rings most":
    "der Quelle und der Schleife; beide Enden versuchen: der größte, heiß, sinkt bleibend am tiefsten, der kleinste, kalt, schwingt am meisten",
  "of the loop, its greatest": "der Schleife, die größte",
  "at the load, its least: low end of tolerance, cold, end of life":
    "an der Last, die kleinste: unteres Ende der Toleranz, kalt, Ende der Lebensdauer",
  "none unless told otherwise; try both ends: the greatest, cold, sags most at the step, the least rings most":
    "keiner, wenn nicht anders angegeben; beide Enden versuchen: der größte, kalt, bricht beim Sprung am tiefsten ein, der kleinste schwingt am meisten",
  "before the step, its lowest, for a load that holds its power, current step × bus V; blank: one that holds its current":
    "vor dem Sprung, die niedrigste, für eine Last konstanter Leistung, current step × bus V; leer: eine mit konstantem Strom",
  "that the load holds, its greatest": "konstante der Last, die größte",
  "of the supply and the loop; try both ends, the lesser margin counts: the least, cold, where damping limits, the greatest, hot, where collapse does":
    "der Quelle und der Schleife; beide Enden versuchen, der kleinere Abstand zählt: der kleinste, kalt, wo die Dämpfung begrenzt, der größte, heiß, wo der Zusammenbruch",
  "its least, warm, where damping limits; none unless told otherwise":
    "der kleinste, warm, wo die Dämpfung begrenzt; keiner, wenn nicht anders angegeben",
  "losses of the profile, one after the other": "Verluste des Profils, einer nach dem anderen",
  "hours that each of the losses lasts": "Stunden, die jeder der Verluste dauert",
  "energy of one year": "Energie eines Jahres",
  "in the first year": "im ersten Jahr",
};

export const GERMAN_TEXTS: Readonly<Record<string, string>> = {
  ...PURPOSES,
  ...CONDUCTORS,
  ...SUPPLIES_AND_STAGES,
  ...FEEDS,
  ...SAFETY_AND_PROTECTION,
  ...TRANSIENTS_AND_COST,
};

/** What every word means that a formula takes. */
export const GERMAN_WORDS: Readonly<Record<string, string>> = {
  copper: "Weichkupfer",
  "hard copper": "Hartkupfer",
  aluminium: "Aluminium",
  "copper-clad aluminium 10 %": "kupferumhülltes Aluminium, 10 % Kupfer",
  "copper-clad aluminium 15 %": "kupferumhülltes Aluminium, 15 % Kupfer",
  geometric: "aus dem Metallquerschnitt, ohne Zuschlag",
  "class 1": "eindrähtig, IEC 60228 Klasse 1",
  "class 2": "mehrdrähtig, IEC 60228 Klasse 2",
  "class 5": "feindrähtig, IEC 60228 Klasse 5",
  "class 5 tinned": "feindrähtig, verzinnt, IEC 60228 Klasse 5",
  solid: "eindrähtig",
  stranded: "mehrdrähtig",
  "stranded tinned": "mehrdrähtig, verzinnt",
  metric: "metrische Querschnitte, IEC 60228",
  AWG: "AWG, darüber kcmil",
  none: "keine",
  PVC: "Polyvinylchlorid",
  XLPE: "vernetztes Polyethylen",
  PTFE: "Polytetrafluorethylen",
  silicone: "Silikon",
  outer: "Außenlage",
  inner: "Innenlage",
  NMC: "NMC 811 mit Graphit und Silizium",
  exact: "genau, ohne Toleranz",
  resistance: "Widerstand",
  inductance: "Induktivität",
  capacitance: "Kapazität",
  voltage: "Spannung",
  current: "Strom",
  power: "Leistung",
  light: "schwach",
  nominal: "Nennwert",
  peak: "Spitze",
  lowest: "niedrigste",
  highest: "höchste",
  "supply power": "Speiseleistung",
  "load power": "Lastleistung",
  loss: "Verlust",
  efficiency: "Wirkungsgrad",
  "lowest margin": "kleinster Abstand zu einem Fenster",
  "highest loading": "höchste Auslastung",
  "input voltage": "Eingangsspannung",
  "output voltage": "Ausgangsspannung",
  "conductor temperature": "Leitertemperatur",
  mass: "Masse",
  price: "Preis",
  "closing error": "Bilanzfehler",
  blocked: "gesperrt",
  allowed: "zugelassen",
  "IEC 62368-1": "Audio-, Video-, Informations- und Kommunikationstechnik",
  "IEC 60364-4-41": "Niederspannungsanlagen",
  "ISO 6469-3": "elektrisch angetriebene Straßenfahrzeuge",
  "US workplace": "Arbeitsstätten in den USA",
  dry: "trocken",
  wet: "nass",
  dc: "Gleichspannung",
  "ac rms": "Wechselspannung, Effektivwert",
  ES1: "elektrische Energiequelle der Klasse 1",
  ES2: "elektrische Energiequelle der Klasse 2",
  ES3: "elektrische Energiequelle der Klasse 3",
  bare: "blanke Teile bei SELV oder PELV",
  "extra-low": "Kleinspannung",
  low: "Niederspannung",
  high: "Hochspannung",
  A: "Spannungsklasse A",
  B: "Spannungsklasse B",
  "above B": "über der Spannungsklasse B",
  "below 50 V": "unter 50 V",
  "50 V or more": "50 V oder mehr",
  functional: "Funktionsisolierung",
  basic: "Basisisolierung",
  reinforced: "verstärkte Isolierung",
  least: "kleinster",
  greatest: "größter",
  R10: "Normzahlreihe R10",
  "low voltage": "Stufen der Niederspannungssicherungen, IEC 60269-1",
  "as made": "wie gefertigt: R10 bis 20 A, darüber IEC 60269-1",
  "TN final": "TN-System, Endstromkreis",
  "TN distribution": "TN-System, Verteilungsstromkreis",
  "TT final": "TT-System, Endstromkreis",
  "TT distribution": "TT-System, Verteilungsstromkreis",
};

export const GERMAN: Translation = {
  text(english) {
    const german = GERMAN_TEXTS[english];
    if (german === undefined) throw new RangeError(`no German for "${english}"`);
    return german;
  },
  word: (choice) => GERMAN_WORDS[choice],
  resultIn: (unit) => `Ergebnis in ${unit}.`,
};

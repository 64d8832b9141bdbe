/*
 * The table of words: one language a group, sorted by what they speak of. Trade terms only.
 * Must not hold units; those are in units.c.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/words.h"

#include <string.h>

#define B(concept) PLMI_BIT(concept)

/* clang-format off */
static const struct plmi_word WORDS[] = {
    /* English */
    {"time", B(TIME)}, {"elapsed", B(TIME)}, {"runtime", B(TIME)}, {"divetime", B(TIME)}, {"duration", B(TIME)},
    {"sampletime", B(TIME)},
    {"depth", B(DEPTH)}, {"dpt", B(DEPTH)}, {"deep", B(DEPTH)},
    {"temperature", B(TEMP)}, {"temp", B(TEMP)}, {"watertemp", B(TEMP)},
    {"po2", B(PO2)}, {"ppo2", B(PO2)}, {"pp02", B(PO2)}, {"po", B(PO2)}, {"ppo", B(PO2)}, {"o2pp", B(PO2)},
    {"o2", B(O2)}, {"oxygen", B(O2)}, {"fo2", B(O2)}, {"ean", B(O2)},
    {"he", B(HE)}, {"helium", B(HE)}, {"fhe", B(HE)},
    {"n2", B(N2)}, {"nitrogen", B(N2)}, {"fn2", B(N2)}, {"pn2", B(N2) | B(PARTIAL)}, {"ppn2", B(N2) | B(PARTIAL)},
    {"phe", B(HE) | B(PARTIAL)},
    {"pphe", B(HE) | B(PARTIAL)}, {"argon", B(OTHER)}, {"ar", B(OTHER)}, {"hydrogen", B(OTHER)},
    {"cell", B(CELL)}, {"sensor", B(CELL)}, {"cells", B(CELL)},
    {"setpoint", B(SET)}, {"set", B(SET)}, {"sp", B(SET)}, {"point", 0},
    {"mode", B(MODE)}, {"circuit", B(MODE)}, {"divemode", B(MODE)}, {"breathing", 0}, {"loop", 0},
    {"gas", B(GAS)}, {"mix", B(GAS)}, {"gasmix", B(GAS)}, {"mixture", B(GAS)}, {"diluent", B(GAS)},
    {"pressure", B(PRESSURE)}, {"press", B(PRESSURE)}, {"pres", B(PRESSURE)},
    {"date", B(DATE)}, {"day", B(DATE)}, {"timestamp", B(DATE) | B(CLOCK)}, {"datetime", B(DATE) | B(CLOCK)},
    {"stamp", B(DATE) | B(CLOCK)},
    {"clock", B(CLOCK)}, {"timeofday", B(CLOCK)}, {"daytime", B(CLOCK)}, {"localtime", B(CLOCK)}, {"utc", 0},
    {"local", 0},
    {"dive", B(DIVE)}, {"diveno", B(DIVE) | B(NUMBER)}, {"divenumber", B(DIVE) | B(NUMBER)},
    {"divenr", B(DIVE) | B(NUMBER)}, {"dives", B(DIVE)},
    {"number", B(NUMBER)}, {"no", B(NUMBER)}, {"num", B(NUMBER)}, {"nr", B(NUMBER)}, {"index", B(NUMBER)},
    {"id", B(NUMBER)}, {"#", B(NUMBER)},
    {"count", B(NUMBER)}, {"row", B(NUMBER)},
    {"max", B(MAX)}, {"maximum", B(MAX)}, {"greatest", B(MAX)}, {"maxdepth", B(MAX) | B(DEPTH)},
    {"min", B(MIN)}, {"minimum", B(MIN)}, {"lowest", B(MIN)},
    {"average", B(MEAN)}, {"avg", B(MEAN)}, {"mean", B(MEAN)},
    {"air", B(AIR)}, {"water", B(WATER)}, {"sea", B(WATER)},
    {"tank", B(TANK)}, {"cylinder", B(TANK)}, {"bottle", B(TANK)}, {"tankpressure", B(TANK) | B(PRESSURE)},
    {"remaining", B(TANK)},
    {"surface", B(SURFACE)}, {"atmospheric", B(SURFACE) | B(AMBIENT)}, {"barometric", B(SURFACE) | B(PRESSURE)},
    {"atmosphere", B(SURFACE)},
    {"ambient", B(AMBIENT)}, {"absolute", B(AMBIENT)}, {"abs", B(AMBIENT)}, {"pamb", B(AMBIENT) | B(PRESSURE)},
    {"gauge", B(GAUGE)}, {"relative", B(GAUGE)}, {"hydrostatic", B(GAUGE)}, {"rel", B(GAUGE)},
    {"partial", B(PARTIAL)}, {"pp", B(PARTIAL)}, {"fraction", B(FRACTION)}, {"frac", B(FRACTION)},
    {"content", B(FRACTION)}, {"share", B(FRACTION)},
    {"stop", B(DECO)}, {"deco", B(DECO)}, {"decompression", B(DECO)}, {"ceiling", B(DECO)}, {"nostop", B(DECO)},
    {"ndl", B(DECO)},
    {"ndt", B(DECO)}, {"tts", B(DECO)}, {"obligation", B(DECO)}, {"gradient", B(DECO)}, {"gf", B(DECO)},
    {"tissue", B(DECO)},
    {"cns", B(DOSE)}, {"otu", B(DOSE)}, {"toxicity", B(DOSE)}, {"rate", B(RATE)}, {"velocity", B(RATE)},
    {"ascent", B(RATE)}, {"speed", B(RATE)},
    {"descent", B(RATE)}, {"heading", B(HEADING)}, {"compass", B(HEADING)}, {"bearing", B(HEADING)},
    {"event", B(EVENT)}, {"alarm", B(EVENT)}, {"warning", B(EVENT)}, {"marker", B(EVENT)}, {"bookmark", B(EVENT)},
    {"events", B(EVENT)},
    {"start", B(START)}, {"begin", B(START)}, {"started", B(START)}, {"end", B(END)}, {"stopped", B(END)},
    {"finish", B(END)},
    {"sample", B(SAMPLE)}, {"record", B(SAMPLE)}, {"reading", B(SAMPLE)}, {"samples", B(SAMPLE)},
    {"diver", B(DIVER)}, {"recorder", B(RECORDER)}, {"computer", B(RECORDER)}, {"device", B(RECORDER)},
    {"instrument", B(RECORDER)},
    {"model", B(RECORDER)}, {"logger", B(RECORDER)}, {"serial", B(RECORDER) | B(NUMBER)},
    {"site", B(SITE)}, {"location", B(SITE)}, {"place", B(SITE)}, {"spot", B(SITE)}, {"altitude", B(ALTITUDE)},
    {"elevation", B(ALTITUDE)},
    {"density", B(DENSITY)}, {"salinity", B(DENSITY)}, {"units", B(UNITS)}, {"unit", B(UNITS)},
    {"interval", B(INTERVAL)},
    {"battery", B(BATTERY)}, {"pulse", B(PULSE)}, {"heart", B(PULSE)}, {"light", B(OTHER)}, {"latitude", B(OTHER)},
    {"longitude", B(OTHER)},
    {"notes", B(NOTES)}, {"note", B(NOTES)}, {"comment", B(NOTES)}, {"comments", B(NOTES)}, {"remark", B(NOTES)},
    {"remarks", B(NOTES)},
    {"of", 0}, {"the", 0}, {"in", 0}, {"at", 0}, {"current", 0}, {"actual", 0}, {"value", 0}, {"measured", 0},
    {"logged", 0}, {"recorded", 0},
    {"since", 0}, {"from", 0}, {"profile", 0}, {"deg", 0}, {"degrees", 0}, {"degree", 0}, {"inspired", 0},
    {"used", 0}, {"active", 0}, {"and", 0},
    {"or", 0}, {"total", B(MAX)}, {"bottom", 0}, {"data", 0}, {"name", 0},

    /* German */
    {"zeit", B(TIME)}, {"tauchzeit", B(TIME)}, {"laufzeit", B(TIME)}, {"dauer", B(TIME)},
    {"zeitpunkt", B(DATE) | B(CLOCK)},
    {"tiefe", B(DEPTH)}, {"tauchtiefe", B(DEPTH)}, {"wassertiefe", B(DEPTH)}, {"maximaltiefe", B(MAX) | B(DEPTH)},
    {"maxtiefe", B(MAX) | B(DEPTH)},
    {"temperatur", B(TEMP)}, {"wassertemperatur", B(TEMP)}, {"wassertemp", B(TEMP)},
    {"lufttemperatur", B(TEMP) | B(AIR)},
    {"sauerstoffpartialdruck", B(PO2)}, {"sauerstoff", B(O2)}, {"sauerstoffanteil", B(O2) | B(FRACTION)},
    {"heliumanteil", B(HE) | B(FRACTION)},
    {"stickstoff", B(N2)}, {"anteil", B(FRACTION)}, {"partialdruck", B(PARTIAL) | B(PRESSURE)},
    {"zelle", B(CELL)}, {"sauerstoffzelle", B(CELL)}, {"messzelle", B(CELL)}, {"sollwert", B(SET)}, {"sollpo2", B(SET)},
    {"modus", B(MODE)}, {"betriebsart", B(MODE)}, {"kreislauf", B(MODE)}, {"gemisch", B(GAS)}, {"atemgas", B(GAS)},
    {"gasgemisch", B(GAS)},
    {"verdunnungsgas", B(GAS)}, {"druck", B(PRESSURE)}, {"umgebungsdruck", B(AMBIENT) | B(PRESSURE)},
    {"absolutdruck", B(AMBIENT) | B(PRESSURE)},
    {"wasserdruck", B(GAUGE) | B(PRESSURE)}, {"uberdruck", B(GAUGE) | B(PRESSURE)},
    {"ueberdruck", B(GAUGE) | B(PRESSURE)},
    {"flaschendruck", B(TANK) | B(PRESSURE)}, {"flasche", B(TANK)}, {"restdruck", B(TANK) | B(PRESSURE)},
    {"luftdruck", B(SURFACE) | B(PRESSURE)}, {"oberflachendruck", B(SURFACE) | B(PRESSURE)},
    {"oberflaechendruck", B(SURFACE) | B(PRESSURE)},
    {"oberflache", B(SURFACE)}, {"datum", B(DATE)}, {"tag", B(DATE)}, {"uhrzeit", B(CLOCK)}, {"uhr", B(CLOCK)},
    {"tageszeit", B(CLOCK)},
    {"tauchgang", B(DIVE)}, {"tauchgangsnummer", B(DIVE) | B(NUMBER)}, {"tauchgangnummer", B(DIVE) | B(NUMBER)},
    {"tg", B(DIVE)},
    {"nummer", B(NUMBER)}, {"maximal", B(MAX)}, {"maximale", B(MAX)}, {"mittlere", B(MEAN)}, {"mittel", B(MEAN)},
    {"durchschnitt", B(MEAN)},
    {"luft", B(AIR)}, {"wasser", B(WATER)}, {"stopp", B(DECO)}, {"dekostopp", B(DECO)}, {"dekostop", B(DECO)},
    {"nullzeit", B(DECO)}, {"deko", B(DECO)},
    {"aufstiegsgeschwindigkeit", B(RATE)}, {"geschwindigkeit", B(RATE)}, {"kurs", B(HEADING)}, {"ereignis", B(EVENT)},
    {"warnung", B(EVENT)},
    {"beginn", B(START)}, {"startzeit", B(START) | B(TIME)}, {"ende", B(END)}, {"messung", B(SAMPLE)},
    {"messwert", B(SAMPLE)},
    {"taucher", B(DIVER)}, {"taucherin", B(DIVER)}, {"tauchcomputer", B(RECORDER)}, {"gerat", B(RECORDER)},
    {"geraet", B(RECORDER)},
    {"tauchplatz", B(SITE)}, {"ort", B(SITE)}, {"hohe", B(ALTITUDE)}, {"hoehe", B(ALTITUDE)}, {"dichte", B(DENSITY)},
    {"einheiten", B(UNITS)},
    {"einheit", B(UNITS)}, {"intervall", B(INTERVAL)}, {"bemerkung", B(NOTES)}, {"seit", 0}, {"aktuelle", 0},
    {"aktuell", 0}, {"grad", 0},
    {"seehohe", B(ALTITUDE)},

    /* French */
    {"temps", B(TIME)}, {"duree", B(TIME)}, {"profondeur", B(DEPTH)}, {"prof", B(DEPTH)},
    {"pression", B(PRESSURE)}, {"partielle", B(PARTIAL)}, {"oxygene", B(O2)}, {"azote", B(N2)}, {"cellule", B(CELL)},
    {"capteur", B(CELL)},
    {"consigne", B(SET)}, {"melange", B(GAS)}, {"gaz", B(GAS)}, {"diluant", B(GAS)}, {"heure", B(CLOCK)},
    {"horaire", B(CLOCK)},
    {"jour", B(DATE)}, {"horodatage", B(DATE) | B(CLOCK)}, {"plongee", B(DIVE)}, {"numero", B(NUMBER)},
    {"ambiante", B(AMBIENT)}, {"absolue", B(AMBIENT)},
    {"relative", B(GAUGE)}, {"bouteille", B(TANK)}, {"bloc", B(TANK)}, {"atmospherique", B(SURFACE) | B(AMBIENT)},
    {"eau", B(WATER)},
    {"moyenne", B(MEAN)}, {"palier", B(DECO)}, {"plafond", B(DECO)}, {"vitesse", B(RATE)}, {"remontee", B(RATE)},
    {"cap", B(HEADING)},
    {"evenement", B(EVENT)}, {"alarme", B(EVENT)}, {"debut", B(START)}, {"depart", B(START)}, {"fin", B(END)},
    {"mesure", B(SAMPLE)},
    {"echantillon", B(SAMPLE)}, {"plongeur", B(DIVER)}, {"plongeuse", B(DIVER)}, {"ordinateur", B(RECORDER)},
    {"enregistreur", B(RECORDER)},
    {"appareil", B(RECORDER)}, {"lieu", B(SITE)}, {"densite", B(DENSITY)}, {"unites", B(UNITS)}, {"unite", B(UNITS)},
    {"intervalle", B(INTERVAL)},
    {"de", 0}, {"du", 0}, {"la", 0}, {"le", 0}, {"l", 0}, {"d", 0}, {"en", 0}, {"des", 0}, {"depuis", 0},
    {"ecoule", B(TIME)}, {"et", 0},

    /* Spanish */
    {"tiempo", B(TIME)}, {"duracion", B(TIME)}, {"transcurrido", B(TIME)}, {"profundidad", B(DEPTH)},
    {"temperatura", B(TEMP)},
    {"presion", B(PRESSURE)}, {"parcial", B(PARTIAL)}, {"oxigeno", B(O2)}, {"helio", B(HE)}, {"nitrogeno", B(N2)},
    {"celula", B(CELL)},
    {"celda", B(CELL)}, {"consigna", B(SET)}, {"modo", B(MODE)}, {"circuito", B(MODE)}, {"mezcla", B(GAS)},
    {"diluyente", B(GAS)},
    {"fecha", B(DATE)}, {"hora", B(CLOCK)}, {"inmersion", B(DIVE)}, {"buceo", B(DIVE)}, {"ambiental", B(AMBIENT)},
    {"ambiente", B(AMBIENT)},
    {"absoluta", B(AMBIENT)}, {"relativa", B(GAUGE)}, {"manometrica", B(GAUGE)}, {"botella", B(TANK)},
    {"superficie", B(SURFACE)},
    {"atmosferica", B(SURFACE) | B(AMBIENT)}, {"agua", B(WATER)}, {"aire", B(AIR)}, {"maxima", B(MAX)},
    {"media", B(MEAN)}, {"parada", B(DECO)},
    {"techo", B(DECO)}, {"velocidad", B(RATE)}, {"rumbo", B(HEADING)}, {"evento", B(EVENT)}, {"alarma", B(EVENT)},
    {"inicio", B(START)},
    {"comienzo", B(START)}, {"muestra", B(SAMPLE)}, {"buceador", B(DIVER)}, {"buceadora", B(DIVER)},
    {"ordenador", B(RECORDER)},
    {"registrador", B(RECORDER)}, {"lugar", B(SITE)}, {"altitud", B(ALTITUDE)}, {"densidad", B(DENSITY)},
    {"unidades", B(UNITS)},
    {"fraccion", B(FRACTION)}, {"intervalo", B(INTERVAL)}, {"del", 0}, {"el", 0}, {"desde", 0}, {"y", 0},

    /* Italian */
    {"tempo", B(TIME)}, {"durata", B(TIME)}, {"trascorso", B(TIME)}, {"profondita", B(DEPTH)},
    {"pressione", B(PRESSURE)}, {"parziale", B(PARTIAL)},
    {"ossigeno", B(O2)}, {"elio", B(HE)}, {"azoto", B(N2)}, {"cella", B(CELL)}, {"sensore", B(CELL)},
    {"modalita", B(MODE)}, {"miscela", B(GAS)},
    {"diluente", B(GAS)}, {"data", 0}, {"ora", B(CLOCK)}, {"orario", B(CLOCK)}, {"giorno", B(DATE)},
    {"immersione", B(DIVE)}, {"assoluta", B(AMBIENT)},
    {"bombola", B(TANK)}, {"acqua", B(WATER)}, {"aria", B(AIR)}, {"massima", B(MAX)}, {"tappa", B(DECO)},
    {"sosta", B(DECO)}, {"velocita", B(RATE)},
    {"risalita", B(RATE)}, {"allarme", B(EVENT)}, {"inizio", B(START)}, {"fine", B(END)}, {"campione", B(SAMPLE)},
    {"subacqueo", B(DIVER)},
    {"subacquea", B(DIVER)}, {"registratore", B(RECORDER)}, {"strumento", B(RECORDER)}, {"luogo", B(SITE)},
    {"altitudine", B(ALTITUDE)},
    {"densita", B(DENSITY)}, {"frazione", B(FRACTION)}, {"di", 0}, {"della", 0}, {"dell", 0}, {"da", 0}, {"dall", 0},
    {"e", 0}, {"unita", B(UNITS)},

    /* Dutch */
    {"tijd", B(TIME)}, {"duiktijd", B(TIME)}, {"duur", B(TIME)}, {"verstreken", B(TIME)}, {"diepte", B(DEPTH)},
    {"duikdiepte", B(DEPTH)},
    {"temperatuur", B(TEMP)}, {"watertemperatuur", B(TEMP)}, {"druk", B(PRESSURE)},
    {"omgevingsdruk", B(AMBIENT) | B(PRESSURE)},
    {"absolute", B(AMBIENT)}, {"flesdruk", B(TANK) | B(PRESSURE)}, {"fles", B(TANK)},
    {"luchtdruk", B(SURFACE) | B(PRESSURE)}, {"lucht", B(AIR)},
    {"zuurstof", B(O2)}, {"zuurstofdruk", B(PO2)}, {"stikstof", B(N2)}, {"cel", B(CELL)}, {"streefwaarde", B(SET)},
    {"instelwaarde", B(SET)},
    {"mengsel", B(GAS)}, {"gasmengsel", B(GAS)}, {"ademgas", B(GAS)}, {"datumtijd", B(DATE) | B(CLOCK)},
    {"dag", B(DATE)}, {"tijdstip", B(CLOCK)},
    {"kloktijd", B(CLOCK)}, {"duik", B(DIVE)}, {"duiknummer", B(DIVE) | B(NUMBER)}, {"oppervlakte", B(SURFACE)},
    {"maximale", B(MAX)},
    {"gemiddelde", B(MEAN)}, {"trap", B(DECO)}, {"stijgsnelheid", B(RATE)}, {"snelheid", B(RATE)},
    {"koers", B(HEADING)},
    {"gebeurtenis", B(EVENT)}, {"meting", B(SAMPLE)}, {"duiker", B(DIVER)}, {"duikcomputer", B(RECORDER)},
    {"duikplaats", B(SITE)}, {"plaats", B(SITE)},
    {"hoogte", B(ALTITUDE)}, {"dichtheid", B(DENSITY)}, {"eenheden", B(UNITS)}, {"eenheid", B(UNITS)},
    {"fractie", B(FRACTION)}, {"van", 0}, {"sinds", 0},
};
/* clang-format on */

const struct plmi_word *plmi_words(size_t *count)
{
    *count = sizeof WORDS / sizeof WORDS[0];
    return WORDS;
}

const struct plmi_word *plmi_word_find(const char *word)
{
    for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
        if (WORDS[i].word[0] == word[0] && strcmp(WORDS[i].word, word) == 0) {
            return &WORDS[i];
        }
    }
    return NULL;
}

// Was das Modell weglässt: die Liste aus README.md.

export const left: Record<string, string> = {
  'What it does not model': 'Was das Modell weglässt',
  'Foulbrood and other disease but mites and the virus that they spread; pesticides. Where start.mites_per_100_bees does not say how many mites a colony starts with, a season has none; colonies that differ in what nobody knows (bands, verdicts, what next, search) have a usual load, and say so.':
    'Faulbrut und andere Krankheiten als Milben und das Virus, das sie verbreiten; Pestizide. Wo start.mites_per_100_bees nicht sagt, mit wie vielen Milben ein Volk beginnt, hat eine Saison keine; Völker, die sich in dem unterscheiden, was niemand weiß (Spannen, Urteile, Was nun, Suche), haben eine übliche Menge, und es wird gesagt.',
  'In mean mode no swarm leaves and no queen is replaced: the columns chance_of_swarm and chance_of_supersedure say how likely it was by then. Random mode plays them.':
    'Bei Erwartungswerten geht kein Schwarm ab, und keine Königin wird ersetzt: Die Spalten chance_of_swarm und chance_of_supersedure sagen, wie wahrscheinlich es bis dahin war. Mit gezogenem Zufall geschieht es.',
  'Robbing, drifting, hive beetles, wax moths, bears; more than one colony; breeds and genetics.':
    'Räuberei, Verflug, Beutenkäfer, Wachsmotten, Bären; mehr als ein Volk; Rassen und Genetik.',
  "Development at other than brood-nest temperature; honey out of the cluster's reach in winter; ventilation and damp.":
    'Entwicklung bei anderer Temperatur als der des Brutnests; Honig, den die Traube im Winter nicht erreicht; Lüftung und Feuchtigkeit.',
  'What blooms around your hive: bloom comes from a table by warmth and date. Edit the table.':
    'Was um dein Volk herum blüht: Die Blüte kommt aus einer Tabelle nach Wärme und Datum. Ändere die Tabelle.',
  'What bees do when two colonies meet: united colonies and given queens are taken as accepted, with the risks that combcast params lists.':
    'Was Bienen tun, wenn zwei Völker aufeinandertreffen: Vereinigte Völker und zugesetzte Königinnen gelten als angenommen, mit den Risiken, die combcast params aufzählt.',
};

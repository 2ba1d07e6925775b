//! What a visit found that cannot wait, in German.

use crate::words::Counted;
use crate::words::shape::AlarmWords;

pub(super) const ALARMS: AlarmWords = AlarmWords {
    names: [
        "Weiselzellen wurden gefunden",
        "kaum Vorrat wurde gefunden",
        "die Milben sind über der Grenze",
        "zu viele Milben fallen",
        "das Volk ist verloren",
        "Plan und Volk widersprechen sich",
    ],
    cells_found: "Gefunden am {date}: {cells}.",
    cells_charged: Counted {
        one: "1 Weiselzelle mit Ei oder Made",
        many: "{count} Weiselzellen mit Ei oder Made",
    },
    cells_capped: Counted {
        one: "1 verdeckelte Weiselzelle",
        many: "{count} verdeckelte Weiselzellen",
    },
    cells_both: "{capped} und {charged}",
    cells_mean: [
        "Da keine Stifte gesehen wurden, ist die alte Königin sehr wahrscheinlich abgeschwärmt oder verloren: Die nächste Königin dieses Volkes sitzt in diesen Zellen.",
        "Ein Schwarm geht ab, etwa wenn die erste Zelle verdeckelt ist: Sie kann am nächsten schönen Tag gehen oder ist in den letzten drei Tagen gegangen, denn so lange bleiben Stifte Stifte. Oder sie wird ersetzt.",
        "Noch ist keine verdeckelt: In etwa einer Woche schwärmt das Volk, oder es ersetzt seine Königin.",
        "Von Stiften und Königin ist nichts aufgeschrieben: Sie kann kurz vor dem Schwärmen stehen, fort sein oder ersetzt werden.",
    ],
    cells_do: [
        "Sind weder Stifte noch Königin da, lass eine gute Zelle stehen, groß und gut geformt, und schüttle ihre Wabe nicht ab; brich die anderen, sonst geht ein Nachschwarm mit einer jungen Königin ab. Dann lass das Volk drei Wochen zu, und such Stifte: Gibt es bis dahin keine, gib eine Wabe mit Stiften oder eine begattete Königin.",
        "Ist sie da und der Kasten voll, teile heute: Setz sie mit zwei oder drei Waben Brut und deren Bienen in einen eigenen Kasten, und lass eine gute Zelle zurück. Sind weder sie noch Stifte zu finden, lass eine gute Zelle stehen, brich die anderen, und lass das Volk drei Wochen zu.",
        "Ist der Kasten voll, gib Raum und teile, bevor die erste Zelle verdeckelt ist: Setz die Königin mit zwei oder drei Waben Brut und deren Bienen in einen eigenen Kasten, und lass eine gute Zelle zurück. Wird sie ersetzt, lass sie gewähren.",
        "Gibt es Stifte und ist der Kasten voll, teile: Setz die Königin mit zwei oder drei Waben Brut und deren Bienen in einen eigenen Kasten, und lass eine gute Zelle zurück. Gibt es weder Stifte noch Königin, lass eine gute Zelle stehen, brich die anderen, und lass das Volk drei Wochen zu.",
    ],
    cells_tell: "Bevor du eine brichst: Such Stifte und die Königin, sieh, ob der Kasten voll ist und wo die Zellen hängen. Viele an den Rändern der Waben und den Unterträgern eines vollen Kastens: Das Volk schwärmt. Eine bis drei auf der Wabenfläche, kein Gedränge: Sie wird ersetzt; lass sie gewähren. Mitten in der Brut aus Arbeiterzellen gezogen und keine Stifte: Sie ging verloren. Alle zu brechen hält ein Volk nicht lange vom Schwärmen ab, und einem, dessen Königin fort ist, nimmt es die letzte.",
    cells_title: "Weiselzellen wurden gefunden: Klär heute, warum, und brich keine, bevor du es weißt",
    cells_why: "{found} {mean} Was aufgeschrieben ist, gilt; Weiselzellen gibt es in {colonies}, die zu den Durchsichten passen.",
    no_stores: "Am {date} wurde kein Vorrat gefunden; ein Volk dieser Größe frisst {aim} in {days} Tagen. Es hungert: Füttere heute.",
    low_stores: "Am {date} wurden nur {found} Vorrat gefunden; ein Volk dieser Größe frisst {aim} in {days} Tagen. Füttere heute.",
    feed_now: "Was aufgeschrieben ist, gilt; das mittlere der Völker, die zu den Durchsichten passen, hat {middle}.",
    mites: "Die Auswaschprobe vom {date} ergab {mites} Milben auf {bees} Bienen: {share} auf 100, und die Grenze liegt bei {act_from}. Noch eine Probe sagt nicht mehr: Es ist Zeit zu behandeln.",
    fallen: "Auf der Windel lagen am {date} {mites} Milben, gesammelt über {days}: {a_day} am Tag, und die Grenze liegt bei {act_from} am Tag. Es ist Zeit zu behandeln.",
    treat_now: "Behandle jetzt gegen Milben",
    no_bees: "Am {date} wurden keine Bienen gefunden.",
    all_lost: "Verloren sind bis zum {date} {lost} dieses Plans.",
    starved: "Verhungert sind von den verlorenen {starved}: Was dieser Plan füttert, reicht nicht.",
    lost_title: "Das Volk ist verloren: Verschließ den Kasten, und such den Grund",
    lost_do: [
        "Verschließ das Flugloch heute: Räuber tragen Milben und Krankheiten heim.",
        "Such in den Waben den Grund: Bienen kopfüber in leeren Zellen sind verhungert. Sieht Brut krank aus oder riecht sie falsch, kommt keine Wabe in ein anderes Volk, bevor die Bieneninspektion oder das Veterinäramt sie gesehen hat.",
        "Waben aus einem gesunden Kasten lassen sich wieder verwenden: Frier sie zwei Tage ein, und schütz sie vor Wachsmotten und Mäusen.",
    ],
    lost_why: "{why} Für das Volk lässt sich nichts mehr tun; darum steht sonst nichts auf dieser Liste.",
    at_odds: "Plan und Volk widersprechen sich: Das Volk, das am {date} gesehen wurde, lebt, wo mit diesem Plan und Wetter {lost} von 100 Völkern schon verloren sind.",
    at_odds_title: "Berichtige den Plan: Er und das Volk widersprechen sich",
    at_odds_do: "Sieh im Plan nach, was das Volk gefüttert bekam und womit es behandelt wurde, mit welchen Waben, welchem Vorrat und wie vielen Bienen es begann, und wann; trag ein, was wirklich getan wurde. Bis dahin sagt das Modell nichts über dieses Volk: Geh nach dem, was du im Kasten siehst.",
    at_odds_why: "{why} Darum steht auf dieser Liste nur, was gefunden wurde.",
    disease: "Wenn du Brut ansiehst: Eingesunkene, schmierige oder löchrige Deckel, übler Geruch oder eine tote Made, die am Streichholz einen Faden zieht, können Faulbrut sein. Findest du etwas davon, schließ das Volk, gib nichts in ein anderes, und ruf die Bieneninspektion oder das Veterinäramt: Das Gesetz verlangt es.",
};

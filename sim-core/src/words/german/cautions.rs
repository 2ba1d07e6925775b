//! What can be wrong, treatments, and what to beware of, in German.

use crate::words::shape::{CauseWords, CautionWords};

pub(super) const CAUSES: CauseWords = CauseWords {
    names: [
        "keine legende Königin",
        "eine schwache Königin",
        "Tracht oder Futter, das nicht ankommt",
        "Mittelwände, die kaum angenommen werden",
        "weit mehr Milben als gedacht",
        "Bienen, die abgeschwärmt oder in ein anderes Volk gezogen sind",
    ],
    tell: [
        "such Stifte und junge Maden, mit der Sonne im Rücken, und die Königin selbst",
        "schau nach Stiften und nach geschlossener, gleichmäßiger Brut; merk dir die Waben, die sie bestiftet",
        "schau nach offenem Nektar neben der Brut und nach dem Stand im Futtergeschirr",
        "halte eine Mittelwand gegen das Licht, und sieh nach, ob sie das Wachs angerührt haben",
        "wasch einen halben Becher Bienen aus, etwa 300, von einer Brutwabe, ohne die Königin",
        "zähl früh am Morgen die besetzten Wabengassen; such nach aufgerissenen Weiselzellen",
    ],
    remedy: [
        "Wenn ja, such Nachschaffungszellen, falls das Volk Brut bekommen hat, und lass ihm die beste; gibt es keine, häng eine Wabe mit Stiften und jungen Maden aus einem gesunden Volk ein, gib eine begattete Königin, oder vereinige die Bienen mit einem Volk, das eine hat.",
        "Schließ zuerst Krankheit aus: eingesunkene, schmierige oder löchrige Deckel, übler Geruch, eine tote Made, die am Streichholz einen Faden zieht. Findest du etwas davon, schließ das Volk, und ruf die Bieneninspektion oder das Veterinäramt: Das Gesetz verlangt es. Liegt es an der Königin, gib eine neue, solange ihre Brut noch heranwachsen kann, oder vereinige das Volk mit einem anderen.",
        "Wenn ja, setz das Futtergeschirr über den Bienensitz, und sieh nach, ob es läuft.",
        "Wenn nicht, häng ausgebaute Waben neben die Brut, oder wachse die Mittelwände neu ein.",
        "Wenn ja, behandle: Wochen, die du jetzt verlierst, sind später verlorene Winterbienen.",
        "Wenn ja, gib eine Wabe verdeckelte Brut aus einem starken, gesunden Volk, und nimm Zargen weg, die sie nicht besetzen können.",
    ],
};

pub(super) const TREATMENTS: [&str; 10] = [
    "Oxalsäure, geträufelt",
    "Oxalsäure, verdampft",
    "Oxalsäure in Glycerin, über Wochen",
    "Ameisensäure, Langzeit",
    "Ameisensäure, ein Tag",
    "Thymol",
    "Amitraz-Streifen",
    "Hopfensäuren",
    "Fluvalinat-Streifen",
    "Coumaphos-Streifen",
];

const ACID: &str =
    "Säuren schädigen Augen, Haut und Lunge: Trag die Schutzkleidung, die das Etikett verlangt.";
const STRIPS: &str =
    "Nimm Streifen heraus, wenn ihre Zeit um ist, sonst werden die Milben resistent.";

pub(super) const CAUTIONS: CautionWords = CautionWords {
    stings: "Stiche können Menschen mit Allergie töten. Trag einen Schleier, zünde zuerst den Smoker an, und lösch ihn sorgfältig.",
    lifting: "Zargen sind schwer: Eine volle Brutraumzarge wiegt etwa so viel, wie ein Erwachsener heben kann. Hol dir Hilfe.",
    robbing: "Verschütteter Sirup lockt Räuber an: Füttere am Abend, und mach das Flugloch eng.",
    washed: "Die Bienen im Glas sterben: Vergewissere dich, dass die Königin nicht darunter ist. Alkohol brennt: Halte ihn vom Smoker fern.",
    label: "Halte dich an das Etikett: Es ist Gesetz. Zulassung, Dosis, Temperatur, Honigräume und Zahl der Anwendungen sind von Land zu Land verschieden und ändern sich. Nichts hier ist eine Dosieranleitung.",
    treatments: [
        ACID,
        ACID,
        ACID,
        ACID,
        ACID,
        "Thymoldampf schädigt Augen und Lunge und verdirbt den Geschmack von Honig.",
        STRIPS,
        "Die Streifen färben auf Kleidung und Haut ab.",
        STRIPS,
        "Rückstände bleiben im Wachs, und Königinnen nehmen Schaden. Nimm die Streifen heraus, wenn ihre Zeit um ist.",
    ],
};

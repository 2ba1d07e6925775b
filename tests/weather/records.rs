use super::read_shipped;
#[test]
fn show() {
    let records = combcast_core::evidence::Records { seattle: read_shipped("seattle").0, new_york: read_shipped("new-york").0 };
    for m in combcast_core::weather::by_month(&records.new_york) { if m.first.month()==3 { println!("{} {}", m.first, (m.high_c+m.low_c)/2.0); } }
    for row in combcast_core::evidence::all(&records).unwrap() { if row.id.starts_with("18") || row.id.starts_with("19") { println!("{} {} [{} {}] {} {} {}", row.id, row.check, row.low, row.high, row.unit, row.value, row.inside); } }
}

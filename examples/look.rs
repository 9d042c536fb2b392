use linefall::{
    exact::{Quanta, Quantity},
    instrument::*,
    reading::*,
    render::{self, *},
    scene::{self, View},
};
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let cat = Catalogue::new(vec![]);
    let ins = cat.get(&a[1]).expect("id");
    let q = ins.lattice.at(Quantity::parse(&a[2]).expect("q").value).expect("lattice");
    let (c, r) = a[3].split_once('x').unwrap();
    let mut req = Request::new(c.parse().unwrap(), r.parse().unwrap(), LineStyle::from_word(&a[4]).unwrap());
    req.marks = Marks::Shown;
    let view = View::from_word(&a[5]).unwrap();
    if let Some(k) = a.get(6) {
        req.glass = Glass::At(k.parse().unwrap());
    }
    let p = pose(ins, q, Quanta::ZERO);
    let rd = read(ins, &p);
    eprintln!("{:?} {:?}", rd, shares(ins, &rd));
    let s = scene::build(ins, &p, ins.variants()[0], view);
    match render::draw(&s, &req) {
        Ok(d) => {
            for l in render::text::lines(&d.grid) {
                println!("{l}");
            }
            println!("{:?} {:?}", d.extent, d.view)
        }
        Err(e) => println!("{e}"),
    }
}

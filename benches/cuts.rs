//! How many cuts a second.

fn main() {
    divan::main();
}

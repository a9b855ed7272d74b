//! Paints the icons of `packaging/icons` as PNG, in every size that desktops ask for:
//!
//! ```sh
//! cargo run -p standpoint-sheet --example program_icons
//! ```

use std::{error::Error, fs, path::Path};

use resvg::{
    tiny_skia::{Pixmap, Transform},
    usvg::{Options, Tree},
};

/// Sizes of the icon theme specification's usual folders, pixels.
const SIZES: [u32; 8] = [16, 24, 32, 48, 64, 128, 256, 512];

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../packaging/icons");
    for name in ["standpoint", "standpoint-board"] {
        let svg = fs::read_to_string(folder.join(name).with_extension("svg"))?;
        let tree = Tree::from_str(&svg, &Options::default())?;
        for size in SIZES {
            let mut pixels = Pixmap::new(size, size).ok_or("no such size")?;
            let scale = size as f32 / tree.size().width();
            resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
            let into = folder.join(format!("{size}x{size}"));
            fs::create_dir_all(&into)?;
            fs::write(into.join(name).with_extension("png"), pixels.encode_png()?)?;
        }
    }
    Ok(())
}

//! The icon of the program's windows.

use std::io::Cursor;

use egui::IconData;

/// The icon in the size that docks and window lists scale from.
const ICON: &[u8] = include_bytes!("../../../packaging/icons/128x128/standpoint.png");

/// The icon of the program's windows; the toolkit's own where it cannot be read.
pub(crate) fn icon() -> IconData {
    let read = || -> Result<IconData, png::DecodingError> {
        let mut reader = png::Decoder::new(Cursor::new(ICON)).read_info()?;
        let mut rgba = vec![0; reader.output_buffer_size().unwrap_or_default()];
        let info = reader.next_frame(&mut rgba)?;
        Ok(IconData { rgba, width: info.width, height: info.height })
    };
    read().unwrap_or_default()
}

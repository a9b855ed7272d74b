//! Shapes as SVG, read back with a general XML reader (roxmltree).

use std::sync::Arc;

use epaint::{CircleShape, Mesh, PathShape, RectShape, pos2, vec2};

use super::*;

fn rect() -> Rect {
    Rect::from_min_size(pos2(10.0, 20.0), vec2(100.0, 50.0))
}

fn svg(shapes: Vec<Shape>) -> String {
    let clipped: Vec<ClippedShape> = shapes
        .into_iter()
        .map(|shape| ClippedShape {
            clip_rect: rect(),
            shape,
            transform_after_tessellation: epaint::emath::TSTransform::IDENTITY,
        })
        .collect();
    drawing(&clipped, rect()).to_svg("test & more")
}

fn attribute(svg: &str, element: &str, name: &str) -> String {
    let xml = roxmltree::Document::parse(svg).unwrap();
    let node = xml.descendants().find(|n| n.has_tag_name(element)).unwrap_or_else(|| panic!("no {element} in {svg}"));
    node.attribute(name).unwrap_or_else(|| panic!("no {name} in {svg}")).to_owned()
}

#[test]
fn everything_is_moved_to_the_origin() {
    let ink = Color32::BLACK;
    let svg = svg(vec![Shape::Circle(CircleShape::filled(pos2(15.0, 22.0), 3.0, ink))]);
    assert_eq!((attribute(&svg, "circle", "cx"), attribute(&svg, "circle", "cy")), ("5".to_owned(), "2".to_owned()));
    assert_eq!(attribute(&svg, "svg", "viewBox"), "0 0 100 50");
}

#[test]
fn the_pieces_of_a_dashed_line_are_one_path() {
    let stroke = Stroke::new(2.0, Color32::BLACK);
    let line = [pos2(10.0, 20.0), pos2(110.0, 20.0)];
    let svg = svg(Shape::dashed_line(&line, stroke, 6.0, 4.0));
    assert_eq!(svg.matches("<path").count(), 1);
    assert_eq!(attribute(&svg, "path", "d").matches('M').count(), 10);
}

#[test]
fn opacity_is_kept_and_nothing_is_painted_where_there_is_none() {
    let half = Color32::from_rgba_unmultiplied(200, 100, 0, 128);
    let shape =
        PathShape::convex_polygon(vec![pos2(10.0, 20.0), pos2(20.0, 20.0), pos2(15.0, 30.0)], half, Stroke::NONE);
    let svg = svg(vec![Shape::Path(shape)]);
    assert_eq!(attribute(&svg, "path", "fill-opacity"), "0.502");
    assert!(!svg.contains("stroke"));
}

#[test]
fn a_stroke_inside_or_outside_moves_the_edge() {
    let shape = |kind| RectShape::new(rect(), 0, Color32::WHITE, Stroke::new(2.0, Color32::BLACK), kind);
    let inside = svg(vec![Shape::Rect(shape(StrokeKind::Inside))]);
    let outside = svg(vec![Shape::Rect(shape(StrokeKind::Outside))]);
    assert_eq!((attribute(&inside, "rect", "x"), attribute(&outside, "rect", "width")), ("1".into(), "102".into()));
}

#[test]
fn a_mesh_becomes_a_picture_with_the_colours_of_its_corners() {
    let mut mesh = Mesh::default();
    for (x, color) in [(10.0, Color32::BLACK), (110.0, Color32::WHITE)] {
        mesh.colored_vertex(pos2(x, 20.0), color);
        mesh.colored_vertex(pos2(x, 70.0), color);
    }
    mesh.add_triangle(0, 1, 2);
    mesh.add_triangle(1, 2, 3);
    let clipped = ClippedShape {
        clip_rect: rect(),
        shape: Shape::Mesh(Arc::new(mesh)),
        transform_after_tessellation: epaint::emath::TSTransform::IDENTITY,
    };
    let drawing = drawing(&[clipped], rect());
    let pixels = crate::raster::pixels(&drawing, (100, 50), [255, 0, 0]).unwrap();
    let grey = |x: usize, y: usize| pixels.rgba[(y * 100 + x) * 4..][..3].to_vec();
    for (x, y) in [(5, 10), (50, 25), (95, 40)] {
        let seen = grey(x, y);
        let wanted = (x as f32 + 0.5) * 2.55;
        assert!(seen.iter().all(|v| (f32::from(*v) - wanted).abs() < 4.0), "{seen:?} at {x}, {wanted} wanted");
    }
}

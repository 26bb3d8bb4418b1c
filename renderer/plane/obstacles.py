"""What is already on the drawing: the texts, lines and badges that a new one must keep clear of."""

import math

from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.plane.boxes import Box, box_of
from halfhank.renderer.plane.crossings import crosses, crossings, lines_meet
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.plane.text_boxes import TextBox, corners_of, label_box, text_box

LINE_GAP = 0.8


class Obstacles:
    """Boxes and lines in use, in the piece's own mm, and the box around everything placed."""

    def __init__(self, piece: Box) -> None:
        self.boxes: list[Box] = []
        self.turned: list[TextBox] = []
        self.lines: list[Points] = []
        self.dimension_lines: list[Points] = []
        self.bounds = piece

    def copy(self) -> "Obstacles":
        """The same obstacles, to try more among them."""
        other = Obstacles(self.bounds)
        other.boxes, other.turned = [*self.boxes], [*self.turned]
        other.lines, other.dimension_lines = [*self.lines], [*self.dimension_lines]
        return other

    def free(self, box: Box, margin: float = 0.6) -> bool:
        """Whether a box, and so much around it, holds nothing yet."""
        room = box.grown(margin)
        if any(text.meets_corners(corners_of(room)) for text in self.turned):
            return False
        return not any(room.meets(other) for other in self.boxes) and not any(
            crosses(line, room) for line in self.lines + self.dimension_lines
        )

    def free_for(self, text: TextBox) -> bool:
        """Whether a text, however it is turned, meets no box and no line."""
        around = [*text.corners, text.corners[0]]
        if any(text.meets_corners(corners_of(box.grown(0.4))) for box in self.boxes):
            return False
        if any(text.meets(other) for other in self.turned):
            return False
        return not any(lines_meet(around, line) for line in self.lines + self.dimension_lines)

    def line_free(self, points: Points, margin: float = 0.6) -> bool:
        """Whether a line keeps clear of all boxes and turned texts."""
        if any(crosses(points, box.grown(margin)) for box in self.boxes):
            return False
        return not any(lines_meet(points, [*text.corners, text.corners[0]]) for text in self.turned)

    def gaps(self, start: Point, end: Point) -> list[tuple[float, float]]:
        """Lengths along a line between which it would touch what is there already, in rising order."""
        lines = self.lines + self.dimension_lines
        gaps = [(at - LINE_GAP, at + LINE_GAP) for line in lines for at in crossings(start, end, line)]
        rooms = [text.corners for text in self.turned] + [corners_of(box.grown(0.5)) for box in self.boxes]
        for corners in rooms:
            places = crossings(start, end, [*corners, corners[0]])
            places += [0.0] if inside(start, corners) else []
            places += [math.dist(start, end)] if inside(end, corners) else []
            if places:
                gaps.append((min(places) - 0.4, max(places) + 0.4))
        return sorted(gaps)

    def add_box(self, box: Box) -> None:
        """Takes the room of a box."""
        self.boxes.append(box)
        self.bounds = self.bounds.joined(box)

    def add_label(self, label: Label) -> None:
        """Takes the room of a text."""
        if label.turn == 0:
            self.add_box(label_box(label))
        else:
            self.turned.append(text_box(label))
            self.bounds = self.bounds.joined(self.turned[-1].bounds)

    def add_line(self, points: Points) -> None:
        """Takes the room of a line."""
        self.lines.append(points)
        self.bounds = self.bounds.joined(box_of(points))

    def add_dimension_line(self, points: Points) -> None:
        """Takes the room of a dimension's line, which an extension line may cross with a gap."""
        self.dimension_lines.append(points)
        self.bounds = self.bounds.joined(box_of(points))

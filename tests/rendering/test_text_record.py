from painted_shapes import EVERYTHING, drawing

from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Text
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.rendering.text_record import text_record


def test_a_drawing_reads_as_one_shape_a_line() -> None:
    assert text_record(EVERYTHING).splitlines()[:12] == [
        'drawing "every <shape>" 60x30',
        "  box 0.5,0.5 59x29 stroke #FF0000 0.2",
        "  box 2,2 10x5 radius 1 fill #FDE60E",
        "  box 14,2 4x4",
        "  circle 50,8 radius 5 fill #5AAB75 stroke #000000 0.4",
        "  line 1,29 to 59,1 #31397F 0.3 dash 1 0.5",
        "  outline closed 20,15 25,25 30,15 round fill #cccccc stroke #000000 0.2",
        "  outline 1,12 4,14 / 6,12 9,14 stroke #777777 0.2",
        "  outline  stroke #000000 0.2",
        '  text 3,22 "5N 1Il" B612-Regular 4 #000000',
        '  text 30,10 "mid & <5N>" B612-Bold 4 #000000 middle stretch 0.8',
        '  text 57,28 "Łódź" DejaVuSansCondensed 4 #31397F end turn 90',
    ]


def test_a_symbol_reads_as_hexadecimal_rows() -> None:
    last = text_record(EVERYTHING).splitlines()[-2:]
    assert last[0].startswith("  symbol 38,15 module 0.5 rows 1fffff aaaaa 155555")
    assert last[1] == "  symbol 38,15 module 0.5 rows 0"


def test_a_document_reads_page_by_page() -> None:
    flag = drawing(38.1, 10.6, Text(x=-0.00001, y=1 / 3, text='a "b"\n', face="B612-Regular", size=2), name="flag")
    page = Sheet(
        width=210,
        height=297,
        placed=(Placed(x=4.75, y=10.7, drawing=flag, turn=90),),
        marks=(Line(x1=0, y1=0, x2=1, y2=1),),
        window=Rectangle(8, 22, 100, 50),
    )
    assert text_record(Document(title="flags", pages=(page,))) == (
        'document "flags"\n'
        "page 1: 210x297\n"
        "  window 8,22 100x50\n"
        "  at 4.75,10.7 turned 90\n"
        '    drawing "flag" 38.1x10.6\n'
        '      text 0,0.333 "a \\"b\\"\\n" B612-Regular 2 #000000\n'
        "  mark line 0,0 to 1,1 #000000 0.2\n"
    )


def test_a_page_without_a_window_has_no_line_for_it() -> None:
    record = text_record(Document(title="t", pages=(Sheet(width=210, height=297),)))
    assert record == 'document "t"\npage 1: 210x297\n'


def test_board_and_folds_are_part_of_the_record() -> None:
    from dataclasses import replace

    with_fold = replace(drawing(10, 5), board="harbour", folds=(5.0,))
    assert text_record(with_fold) == 'drawing "sample" 10x5 board harbour fold 5\n'

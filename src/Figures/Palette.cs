namespace Athwart.Figures;

/// <summary>The colours of figures and pages, once for day and paper, once for night.</summary>
/// <remarks>Every text colour stands against <see cref="Paper"/> and <see cref="Card"/> at 4.5 to 1 or more, every drawn one at 3 to 1 or more.</remarks>
public sealed record Palette
{
    /// <summary>Behind everything.</summary>
    public required Rgb Paper { get; init; }

    /// <summary>Behind one effect and its figures.</summary>
    public required Rgb Card { get; init; }

    /// <summary>Text.</summary>
    public required Rgb Ink { get; init; }

    /// <summary>Secondary text and axis labels.</summary>
    public required Rgb Muted { get; init; }

    /// <summary>Rules and grid lines; decoration only.</summary>
    public required Rgb Line { get; init; }

    /// <summary>The mid; also links.</summary>
    public required Rgb Mid { get; init; }

    /// <summary>The side.</summary>
    public required Rgb Side { get; init; }

    /// <summary>Good to know.</summary>
    public required Rgb Note { get; init; }

    /// <summary>Listen first.</summary>
    public required Rgb Caution { get; init; }

    /// <summary>Damaged.</summary>
    public required Rgb Fault { get; init; }

    /// <summary>For day and for paper.</summary>
    public static Palette Light { get; } = new()
    {
        Paper = Rgb.FromHex(0xF7F5F0),
        Card = Rgb.FromHex(0xFFFFFF),
        Ink = Rgb.FromHex(0x1C2528),
        Muted = Rgb.FromHex(0x566267),
        Line = Rgb.FromHex(0xDDD9CF),
        Mid = Rgb.FromHex(0x14606F),
        Side = Rgb.FromHex(0xA34D16),
        Note = Rgb.FromHex(0x3A5A8C),
        Caution = Rgb.FromHex(0x855600),
        Fault = Rgb.FromHex(0xA1212B),
    };

    /// <summary>For night.</summary>
    public static Palette Dark { get; } = new()
    {
        Paper = Rgb.FromHex(0x12171A),
        Card = Rgb.FromHex(0x1A2125),
        Ink = Rgb.FromHex(0xE9E6DE),
        Muted = Rgb.FromHex(0xA2AEB1),
        Line = Rgb.FromHex(0x354045),
        Mid = Rgb.FromHex(0x62C4D2),
        Side = Rgb.FromHex(0xF0A268),
        Note = Rgb.FromHex(0x9DBBEA),
        Caution = Rgb.FromHex(0xE9BC5A),
        Fault = Rgb.FromHex(0xFF8E8E),
    };

    /// <summary>The custom properties of a style sheet: '--paper:#f7f5f0;…'.</summary>
    public string ToCss() => $"--paper:{Paper};--card:{Card};--ink:{Ink};--muted:{Muted};--line:{Line};--mid:{Mid};--side:{Side};--note:{Note};--caution:{Caution};--fault:{Fault}";
}

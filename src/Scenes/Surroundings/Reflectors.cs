namespace Athwart.Scenes.Surroundings;

/// <summary>Surfaces that mirror the sources.</summary>
public abstract record Reflectors
{
    /// <summary>The source itself first, then its mirror images.</summary>
    internal abstract IEnumerable<MirrorImage> Images();

    /// <summary>The pressure reflection factor √(1 − α) of a surface that absorbs the part α of the power.</summary>
    internal static double Factor(double absorption) => absorption is >= 0 and <= 1
        ? Math.Sqrt(1 - absorption)
        : throw new ArgumentOutOfRangeException(nameof(absorption), absorption, "an absorption lies between 0 and 1");
}

/// <summary>Flat ground at z = 0.</summary>
/// <param name="Absorption">The part of the power it takes, 0 to 1, the same at all frequencies and angles.</param>
public sealed record Ground(double Absorption = 0.3) : Reflectors
{
    /// <inheritdoc/>
    internal override IEnumerable<MirrorImage> Images() =>
        [MirrorImage.Itself, new(new(1, 1, -1), default, Factor(Absorption), 1)];
}

/// <summary>A mirror image: the source's place with axes turned about and moved.</summary>
/// <param name="Turn">1 or −1 an axis.</param>
/// <param name="Move">Metres added after.</param>
/// <param name="Gain">The product of the reflection factors.</param>
/// <param name="Order">How many reflections.</param>
internal readonly record struct MirrorImage(Place Turn, Place Move, double Gain, int Order)
{
    public static MirrorImage Itself { get; } = new(new(1, 1, 1), default, 1, 0);

    public Place Of(Place source) =>
        new((Turn.X * source.X) + Move.X, (Turn.Y * source.Y) + Move.Y, (Turn.Z * source.Z) + Move.Z);
}

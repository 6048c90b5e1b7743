using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Surroundings;

/// <summary>Sound from everywhere alike: independent plane waves from directions spread over the sphere.</summary>
/// <remarks>
/// The directions are the corners of icosahedra turned by chance. The twelve corners of one are a spherical 5-design: every
/// polynomial of up to the fifth degree has the mean of the whole sphere, so the powers of first-order microphones are those of the
/// integral, A² + B²/3 and 1/3, exactly.
/// </remarks>
public sealed record DiffuseField
{
    /// <summary>Sound pressure level of the whole field, dB re 20 µPa, unweighted.</summary>
    public double LevelDecibels { get; init; } = 40;

    /// <summary>Lowest frequency in hertz; edge of second order.</summary>
    public double LowHertz { get; init; } = 50;

    /// <summary>Highest frequency in hertz; edge of fourth order; at most 0.42 of the rate.</summary>
    public double HighHertz { get; init; } = 8000;

    /// <summary>The power falls as f^−n inside the band; 0 is white, 1 pink.</summary>
    public double PowerExponent { get; init; } = 1;

    /// <summary>Twelve waves each; 1 to 20.</summary>
    public int Icosahedra { get; init; } = 2;

    /// <summary>The filters that give the field its spectrum.</summary>
    internal FilterChain Chain(double rate) => new(
    [
        .. PowerExponent > 0 ? SlopeLadder.Sections(PowerExponent, LowHertz, rate) : [],
        FilterDesigns.High2(LowHertz, rate),
        .. FilterDesigns.Low4(Math.Min(HighHertz, 0.42 * rate), rate),
    ]);

    /// <summary>Unit vectors the waves come from.</summary>
    internal IReadOnlyList<Place> Directions(Chance chance)
    {
        List<Place> all = [];
        for (var i = 0; i < Icosahedra; i++)
            all.AddRange(Turned(chance.Fork("turn", i)));
        return all;
    }

    // A rotation even over all rotations, from a quaternion of four normal numbers.
    private static IEnumerable<Place> Turned(Chance chance)
    {
        var (w, x, y, z) = (chance.Normal(), chance.Normal(), chance.Normal(), chance.Normal());
        var size = Math.Sqrt((w * w) + (x * x) + (y * y) + (z * z));
        (w, x, y, z) = (w / size, x / size, y / size, z / size);
        var forward = new Place(1 - (2 * ((y * y) + (z * z))), 2 * ((x * y) + (w * z)), 2 * ((x * z) - (w * y)));
        var left = new Place(2 * ((x * y) - (w * z)), 1 - (2 * ((x * x) + (z * z))), 2 * ((y * z) + (w * x)));
        var up = new Place(2 * ((x * z) + (w * y)), 2 * ((y * z) - (w * x)), 1 - (2 * ((x * x) + (y * y))));
        return Corners().Select(corner => (corner.X * forward) + (corner.Y * left) + (corner.Z * up));
    }

    private static IEnumerable<Place> Corners()
    {
        var golden = (1 + Math.Sqrt(5)) / 2;
        var size = 1 / Math.Sqrt(1 + (golden * golden));
        foreach (var (a, b) in new[] { (1, 1), (1, -1), (-1, 1), (-1, -1) })
        {
            yield return size * new Place(0, a, b * golden);
            yield return size * new Place(a, b * golden, 0);
            yield return size * new Place(b * golden, 0, a);
        }
    }
}

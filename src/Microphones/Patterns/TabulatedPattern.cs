using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Microphones.Patterns;

/// <summary>One measured point of a pattern.</summary>
/// <param name="Frequency">From 1 Hz to 200 kHz.</param>
/// <param name="Angle">Off the axis, 0 to 180 degrees.</param>
/// <param name="Level">Against the axis at the same frequency: 0 dB at 0 degrees, −∞ in a null, at most +20 dB.</param>
/// <param name="Opposite">Whether the lobe at this point has the polarity opposite to the front.</param>
public readonly record struct PatternPoint(Hertz Frequency, Degrees Angle, Decibels Level, bool Opposite = false);

/// <summary>What a table of levels, which has no signs of its own, means behind its deepest place.</summary>
public enum LobeBehind
{
    /// <summary>The signs are those of the points; front and back alike where none is marked.</summary>
    AsMarked,

    /// <summary>At each frequency every point past the lowest level has the opposite polarity, as behind the null of a figure-8 or hypercardioid.</summary>
    Opposite,
}

/// <summary>
/// A pattern measured at some frequencies and angles. Between angles the signed amplitude runs linearly, between frequencies it
/// runs linearly along the logarithm of frequency; outside the table the nearest frequency holds.
/// </summary>
public sealed class TabulatedPattern : IPattern, IEquatable<TabulatedPattern>
{
    /// <summary>How far the level on the axis may lie from 0 dB.</summary>
    public const double AxisToleranceDecibels = 0.05;

    private const double HighestDecibels = 20;
    private readonly double[] _logFrequencies;
    private readonly Curve[] _curves;

    /// <summary>Builds the table; the order of the points makes no difference, and each frequency may have its own angles.</summary>
    /// <exception cref="ArgumentException">No points; a value out of range; a point twice; a frequency without 0° or 180°; an axis that is not at 0 dB.</exception>
    public TabulatedPattern(IEnumerable<PatternPoint> points, LobeBehind behind = LobeBehind.AsMarked)
    {
        ArgumentNullException.ThrowIfNull(points);
        Points = [.. points.OrderBy(point => point.Frequency).ThenBy(point => point.Angle)];
        if (Points.Count == 0)
            throw new ArgumentException("the pattern table is empty: give levels at 0 to 180 degrees for one frequency or more", nameof(points));
        foreach (var point in Points)
            CheckPoint(point);
        Behind = behind;
        var rows = Points.GroupBy(point => point.Frequency).ToList();
        _logFrequencies = [.. rows.Select(row => Math.Log(row.Key.Value))];
        _curves = [.. rows.Select(row => BuildCurve([.. row], behind))];
    }

    /// <summary>'measured'.</summary>
    public string Name => "measured";

    /// <summary>The points as given, by frequency and angle.</summary>
    public IReadOnlyList<PatternPoint> Points { get; }

    /// <summary>What the signs behind the deepest place are.</summary>
    public LobeBehind Behind { get; }

    /// <summary>The frequencies of the table, lowest first.</summary>
    public IReadOnlyList<Hertz> Frequencies => [.. Points.Select(point => point.Frequency).Distinct()];

    /// <inheritdoc/>
    public double Gain(double angleRadians, double frequencyHertz)
    {
        var degrees = Math.Abs(Math.IEEERemainder(angleRadians, 2 * Math.PI)) * (180 / Math.PI);
        var position = Math.Log(frequencyHertz);
        var upper = 0;
        while (upper < _logFrequencies.Length && _logFrequencies[upper] < position)
            upper++;
        if (upper == _logFrequencies.Length)
            return _curves[^1].At(degrees);
        if (upper == 0)
            return _curves[0].At(degrees);
        var share = (position - _logFrequencies[upper - 1]) / (_logFrequencies[upper] - _logFrequencies[upper - 1]);
        return (_curves[upper - 1].At(degrees) * (1 - share)) + (_curves[upper].At(degrees) * share);
    }

    /// <summary>Whether both hold the same points and signs.</summary>
    public bool Equals(TabulatedPattern? other) => other is not null && Behind == other.Behind && Points.SequenceEqual(other.Points);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as TabulatedPattern);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Behind, Points.Count, Points[0], Points[^1]);

    private static void CheckPoint(PatternPoint point)
    {
        if (!(point.Frequency.Value is >= 1 and <= 200_000))
            throw Refused(point, "the frequency must lie between 1 Hz and 200 kHz; check the unit");
        if (!(point.Angle.Value is >= 0 and <= 180))
            throw Refused(point, "the angle off the axis must lie between 0 and 180 degrees; a pattern is alike all around its axis, so give one side");
        if (double.IsNaN(point.Level.Value) || point.Level.Value > HighestDecibels)
            throw Refused(point, "the level must be a number of decibels against the axis, +20 dB at most; check that sensitivities were not given");
    }

    private static Curve BuildCurve(PatternPoint[] row, LobeBehind behind)
    {
        for (var i = 1; i < row.Length; i++)
        {
            if (row[i].Angle == row[i - 1].Angle)
                throw Refused(row[i], "this frequency and angle are given twice; keep one");
        }

        if (row[0].Angle.Value != 0 || row[^1].Angle.Value != 180)
            throw Refused(row[0], "each frequency needs its level at 0 and at 180 degrees");
        if (Math.Abs(row[0].Level.Value) > AxisToleranceDecibels)
            throw Refused(row[0], "levels are against the axis at the same frequency, so 0 degrees must read 0 dB; take this level off the whole frequency");
        var deepest = row.MinBy(point => point.Level.Value).Angle;
        return new([.. row.Select(point => point.Angle.Value)], [.. row.Select(point => Signed(point, behind, deepest))]);
    }

    private static double Signed(PatternPoint point, LobeBehind behind, Degrees deepest)
    {
        var opposite = point.Opposite || (behind == LobeBehind.Opposite && point.Angle > deepest);
        return opposite ? -point.Level.AmplitudeRatio : point.Level.AmplitudeRatio;
    }

    private static ArgumentException Refused(PatternPoint point, string rule) => new(string.Create(
        CultureInfo.InvariantCulture,
        $"pattern table at {point.Frequency.Value:0.###} Hz, {point.Angle.Value:0.###} degrees, {point.Level.Value:0.###} dB: {rule}"), nameof(point));

    /// <summary>The amplitudes at one frequency, by angle in degrees.</summary>
    private sealed class Curve(double[] degrees, double[] amplitudes)
    {
        public double At(double angle)
        {
            var found = Array.BinarySearch(degrees, angle);
            if (found >= 0)
                return amplitudes[found];
            var upper = ~found;
            if (upper == 0)
                return amplitudes[0];
            if (upper == degrees.Length)
                return amplitudes[^1];
            var share = (angle - degrees[upper - 1]) / (degrees[upper] - degrees[upper - 1]);
            return (amplitudes[upper - 1] * (1 - share)) + (amplitudes[upper] * share);
        }
    }
}

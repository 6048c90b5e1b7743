namespace Athwart.Metering.Portrait;

/// <summary>From the evenly spaced bins of a spectrum to rows evenly spaced in the logarithm of frequency.</summary>
/// <remarks>
/// A row shows the strongest bin inside it, or, where bins are wider than rows, the power between the two bins around its centre:
/// a steady tone reads its level in every part of the picture (up to 1.4 dB less between bins, a property of the Hann window).
/// </remarks>
internal sealed class SpectrogramRows
{
    private readonly (int First, int Last, int Below, double Part)[] _rows;

    public SpectrogramRows(int count, double lowestHertz, double highestHertz, double binHertz)
    {
        _rows = new (int, int, int, double)[count];
        var lastBin = (int)Math.Round(highestHertz / binHertz);
        for (var r = 0; r < count; r++)
        {
            var from = Edge(r) / binHertz;
            var to = Edge(r + 1) / binHertz;
            var centre = Math.Min(Math.Sqrt(from * to), lastBin);
            var below = Math.Min((int)centre, lastBin - 1);
            var last = r == count - 1 ? lastBin : (int)Math.Ceiling(to) - 1;
            _rows[r] = ((int)Math.Ceiling(from), last, below, centre - below);
        }

        double Edge(int row) => lowestHertz * Math.Pow(highestHertz / lowestHertz, (double)row / count);
    }

    public int Count => _rows.Length;

    public void Write(ReadOnlySpan<double> power, double scale, byte[] steps, int column, int columns)
    {
        for (var r = 0; r < _rows.Length; r++)
        {
            var (first, last, below, part) = _rows[r];
            var strongest = power[below] + (part * (power[below + 1] - power[below]));
            for (var bin = first; bin <= last; bin++)
                strongest = Math.Max(strongest, power[bin]);
            steps[(r * columns) + column] = HalfDecibels(strongest * scale);
        }
    }

    private static byte HalfDecibels(double power)
        => power <= 0 ? (byte)0 : (byte)Math.Clamp(Math.Round(255 + (20 * Math.Log10(power))), 0, 255);
}

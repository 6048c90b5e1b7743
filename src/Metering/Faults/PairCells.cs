namespace Athwart.Metering.Faults;

/// <summary>Levels and agreement of the two channels for each transformed block and four bands from 100 Hz to 3 kHz, as counts.</summary>
/// <remarks>
/// A cell is one band of one block. Below 3 kHz capsules a hand's breadth apart still agree in phase. Memory is fixed: cells are counted by
/// how far the second channel lies above the first, and by how they correlate.
/// </remarks>
internal sealed class PairCells(int sampleRateHertz)
{
    private const int Levels = 81, Agreements = 21;
    private const float Quietest = 1e-10f;
    private static readonly double[] Edges = [100, 300, 700, 1500, 3000];
    private readonly int[] _bins = [.. Edges.Select(hertz => Math.Clamp((int)Math.Ceiling(hertz * PairSpectrum.Length / sampleRateHertz), 2, PairSpectrum.Bins - 2))];
    private readonly int[,] _counts = new int[Levels, Agreements];

    /// <summary>Cells so far.</summary>
    public int Count { get; private set; }

    /// <summary>Takes the joint transform of a block: the first channel as real, the second as imaginary part.</summary>
    public void Add(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary)
    {
        var length = real.Length;
        for (var b = 0; b + 1 < _bins.Length; b++)
        {
            var (first, second, common) = (0f, 0f, 0f);
            for (var k = _bins[b]; k < _bins[b + 1]; k++)
            {
                var (ar, ai, br, bi) = (real[k], imaginary[k], real[length - k], imaginary[length - k]);
                var (mr, mi, sr, si) = (ar + br, ai - bi, ai + bi, br - ar);
                first += (mr * mr) + (mi * mi);
                second += (sr * sr) + (si * si);
                common += (mr * sr) + (mi * si);
            }

            if (first + second < Quietest)
                continue;
            var decibels = Math.Clamp(10 * Math.Log10((second + 1e-20) / (first + 1e-20)), -40, 40);
            var agreement = Math.Clamp(common / Math.Sqrt(((double)first * second) + 1e-30), -1, 1);
            _counts[(int)Math.Round(decibels) + 40, (int)Math.Round(agreement * 10) + 10]++;
            Count++;
        }
    }

    /// <summary>Mean correlation of the cells, −1 to +1; 0 without any.</summary>
    public double Agreement => Mean(a => a);

    /// <summary>Share of cells that are opposed beyond 0.5.</summary>
    public double Opposed => Mean(a => a < -0.5 ? 1 : 0);

    /// <summary>The level of the second channel above the first that a share of the cells stays below, in decibels.</summary>
    /// <param name="share">0 to 1.</param>
    /// <param name="from">Smallest magnitude of correlation of the cells that count.</param>
    /// <param name="to">Largest.</param>
    public double Level(double share, double from = 0, double to = 1)
    {
        var (total, sum) = (0.0, 0.0);
        foreach (var pass in (bool[])[false, true])
        {
            for (var l = 0; l < Levels; l++)
            {
                for (var a = 0; a < Agreements; a++)
                {
                    if (Math.Abs(a - 10) / 10.0 is var r && r >= from - 0.01 && r <= to + 0.01)
                        sum += _counts[l, a];
                }

                if (pass && sum > 0 && sum >= share * total)
                    return l - 40;
            }

            (total, sum) = (sum, 0);
        }

        return 0;
    }

    /// <summary>How the cells lie between the two channels, as shares of all of them.</summary>
    public PairAxes Axes()
    {
        var axes = new PairAxes();
        for (var l = 0; l < Levels; l++)
        {
            for (var a = 0; a < Agreements; a++)
            {
                if (_counts[l, a] > 0)
                    axes.Add(l - 40, (a - 10) / 10.0, _counts[l, a] / (double)Count);
            }
        }

        return axes;
    }

    private double Mean(Func<double, double> of)
    {
        var sum = 0.0;
        for (var l = 0; l < Levels; l++)
        {
            for (var a = 0; a < Agreements; a++)
                sum += _counts[l, a] > 0 ? _counts[l, a] * of((a - 10) / 10.0) : 0;
        }

        return Count > 0 ? sum / Count : 0;
    }
}

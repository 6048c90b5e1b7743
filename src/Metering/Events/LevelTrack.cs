namespace Athwart.Metering.Events;

/// <summary>Levels of a take every 5 ms: each band of mid, side, left and right. 8 kilobytes a second of take, some hundredths of its samples.</summary>
internal sealed class LevelTrack(int sampleRateHertz, IReadOnlyList<double> widths)
{
    /// <summary>Steps a second.</summary>
    public const int StepsPerSecond = 200;

    /// <summary>Mid, side, left, right.</summary>
    public const int Signals = 4;

    /// <summary>What silence reads, dB.</summary>
    public const double Silence = -200;

    private const int StepsInPage = 4096;
    private const double Fineness = 256;

    // Levels are kept to 1/256 dB over silence: each has one power.
    private static readonly float[] PowerOf = [.. Enumerable.Range(0, ushort.MaxValue + 1).Select(w => w == 0 ? 0 : (float)Math.Pow(10, ((w / Fineness) + Silence) / 10))];

    private readonly List<ushort[]> _pages = [];

    public int SampleRateHertz => sampleRateHertz;

    public int Bands => widths.Count;

    /// <summary>Rows of a step: bands of each signal.</summary>
    public int Rows => widths.Count * Signals;

    /// <summary>Whole steps.</summary>
    public int Steps { get; private set; }

    /// <summary>Degrees of freedom of a step's power in a row, if the sound is normal noise: twice its width times its length.</summary>
    public double Freedom(int row) => 2 * widths[row / Signals] / StepsPerSecond;

    /// <summary>Half the width a row is smoothed by, in steps: narrow low bands need longer to be sure of.</summary>
    public int Reach(int row) => widths[row / Signals] switch { < 200 => 8, < 700 => 4, _ => 2 };

    /// <summary>The frame a step begins at.</summary>
    public long FrameOf(double step) => (long)Math.Round(step * sampleRateHertz / StepsPerSecond, MidpointRounding.AwayFromZero);

    /// <summary>Adds a step: four powers a band.</summary>
    public void Add(BandSplitter splitter, double sideGain)
    {
        var at = Steps++ % StepsInPage * Rows;
        if (at == 0)
            _pages.Add(new ushort[StepsInPage * Rows]);
        var page = _pages[^1];
        for (var band = 0; band < Bands; band++, at += Signals)
        {
            var (mid, side, product) = splitter.Take(band);
            var (both, cross) = (mid + (sideGain * sideGain * side), 2 * sideGain * product);
            (page[at], page[at + 1], page[at + 2], page[at + 3]) = (Word(mid), Word(side), Word(both + cross), Word(both - cross));
        }
    }

    /// <summary>The powers of a row, for those who go through all of it.</summary>
    public float[] Powers(int row)
    {
        var powers = new float[Steps];
        for (var step = 0; step < powers.Length; step++)
            powers[step] = PowerOf[_pages[step / StepsInPage][(step % StepsInPage * Rows) + row]];
        return powers;
    }

    private static ushort Word(double power) =>
        power > 0 ? (ushort)Math.Clamp(Math.Round(((10 * Math.Log10(power)) - Silence) * Fineness), 0, ushort.MaxValue) : (ushort)0;
}

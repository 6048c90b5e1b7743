namespace Athwart.Metering.Portrait;

/// <summary>What a cut looks like, in numbers small enough to draw: the size does not grow with the length of the cut.</summary>
public sealed record TakePortrait
{
    /// <summary>Frames the portrait was taken of.</summary>
    public required long FrameCount { get; init; }

    /// <summary>Frames per second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>The amplitude ratio of side against mid that left and right were decoded with; 0 is mono.</summary>
    public required double SideGain { get; init; }

    /// <summary>Columns of every picture over time; at most what was asked for, never more than frames, 0 for an empty cut.</summary>
    public int Columns => Mid.Highest.Length;

    /// <summary>Seconds from the first frame to the end.</summary>
    public double Seconds => (double)FrameCount / SampleRateHertz;

    /// <summary>The mid over time.</summary>
    public required RoleTrace Mid { get; init; }

    /// <summary>The side over time, before the side gain.</summary>
    public required RoleTrace Side { get; init; }

    /// <summary>
    /// Correlation of the decoded left and right per column, −1 to 1, over at least
    /// <see cref="CorrelationWindowSeconds"/> around it; NaN where left or right is silent.
    /// </summary>
    public required float[] Correlation { get; init; }

    /// <summary>The shortest stretch a correlation is taken over; shorter only at the ends of the cut.</summary>
    public required double CorrelationWindowSeconds { get; init; }

    /// <summary>Where left and right swing against each other.</summary>
    public required VectorPicture Vector { get; init; }

    /// <summary>The spectrogram of the mid, which is the decoded mono fold (left + right) / 2.</summary>
    public required Spectrogram MidSpectrogram { get; init; }

    /// <summary>The spectrogram of the side, before the side gain.</summary>
    public required Spectrogram SideSpectrogram { get; init; }

    /// <summary>Samples that were infinite or not a number; they were drawn as zero.</summary>
    public required long NonFiniteSamples { get; init; }
}

/// <summary>One role over time, a value a column, full scale ±1.</summary>
/// <param name="Lowest">The most negative sample of each column.</param>
/// <param name="Highest">The most positive sample of each column.</param>
/// <param name="Rms">The root mean square of each column; a full-scale sine reads 0.707.</param>
public sealed record RoleTrace(float[] Lowest, float[] Highest, float[] Rms)
{
    /// <summary>The largest magnitude anywhere; 0 for silence or no columns.</summary>
    public float Peak
    {
        get
        {
            var peak = 0f;
            for (var c = 0; c < Highest.Length; c++)
                peak = Math.Max(peak, Math.Max(Highest[c], -Lowest[c]));
            return peak;
        }
    }
}

/// <summary>Levels over time and frequency; rows are evenly spaced in the logarithm of frequency.</summary>
/// <param name="Columns">Columns over time.</param>
/// <param name="Rows">Rows from <paramref name="LowestHertz"/> (row 0) to <paramref name="HighestHertz"/>.</param>
/// <param name="LowestHertz">The lower edge of row 0.</param>
/// <param name="HighestHertz">The upper edge of the last row: half the sample rate.</param>
/// <param name="HalfDecibelSteps">
/// Row after row of columns. 255 is 0 dBFS or more, where a full-scale sine reads 0; each step is half a decibel;
/// 0 is −127.5 dBFS or less.
/// </param>
/// <param name="WindowSeconds">How much time one spectrum looks at.</param>
public sealed record Spectrogram(int Columns, int Rows, double LowestHertz, double HighestHertz, byte[] HalfDecibelSteps, double WindowSeconds)
{
    /// <summary>The level in dBFS (a full-scale sine reads 0), from −127.5, which also stands for less.</summary>
    public double LevelDecibelsFullScale(int column, int row) => (HalfDecibelSteps[(row * Columns) + column] - 255) / 2.0;
}

/// <summary>How often the pair of left and right stood where: a square two-dimensional histogram.</summary>
/// <remarks>
/// Across: (right − left) / 2 = −g·side, positive to the right. Up: (left + right) / 2 = mid, positive upwards. A sound in the left
/// alone lies on the diagonal to the upper left, in both alike on the vertical, in opposite polarity on the horizontal.
/// </remarks>
/// <param name="Size">Cells along one edge; even, 0 for an empty cut.</param>
/// <param name="Range">The amplitude at the edge: the picture spans ±Range both ways.</param>
/// <param name="Density">
/// Row after row from the bottom; 0 where no frame fell, else 1 to 255, linear in the logarithm of one plus the count, 255 the most frequent cell.
/// </param>
public sealed record VectorPicture(int Size, double Range, byte[] Density);

using Athwart.Metering.LineUp;

namespace Athwart.Metering.Faults;

/// <summary>How the two channels compare in the third octaves from 50 Hz to 16 kHz, over the take and where it is quietest.</summary>
/// <param name="QuietLevel">The second above the first where each bin was quietest, median in decibels.</param>
/// <param name="QuietApart">The median magnitude of the same. Left and right have the noise of mid and side alike.</param>
/// <param name="Level">The second above the first over the take, median in decibels.</param>
/// <param name="Apart">The median magnitude of the same.</param>
/// <param name="Agreement">Mean of the real part of the coherence that stays over the take, −1 to 1.</param>
/// <param name="Likeness">Mean of its magnitude.</param>
/// <param name="Opposition">Mean of how far it is below 0.</param>
internal sealed record PairBands(double QuietLevel, double QuietApart, double Level, double Apart, double Agreement, double Likeness, double Opposition)
{
    private const double Lowest = 50, Highest = 16_000, Highness = 0.42, HalfThirdOctave = 1.12, Silent = 1e-15, Nothing = 1e-18;

    /// <summary>Compares.</summary>
    public static PairBands Of(PairCross cross, int sampleRateHertz)
    {
        var width = sampleRateHertz / (double)PairCross.Length;
        List<double> quiet = [], level = [], coherence = [];
        for (var hertz = Lowest; hertz < Math.Min(Highest, Highness * sampleRateHertz); hertz *= Math.Cbrt(2))
        {
            var (from, to) = ((int)(hertz / HalfThirdOctave / width) + 1, (int)(hertz * HalfThirdOctave / width) + 1);
            var (first, second) = (cross.QuietMid[from..to].Sum(), cross.QuietSide[from..to].Sum());
            var (firstMean, secondMean) = (cross.Mid[from..to].Sum(), cross.Side[from..to].Sum());
            if (!(first > Silent) || !(firstMean > Silent))
                continue;
            quiet.Add(10 * Math.Log10((second + Nothing) / first));
            level.Add(10 * Math.Log10((secondMean + Nothing) / firstMean));
            coherence.Add(cross.Plain[from..to].Average(x => x.Re) / cross.Groups);
        }

        return new(
            Middle(quiet), Middle(quiet.Select(Math.Abs)), Middle(level), Middle(level.Select(Math.Abs)),
            coherence.DefaultIfEmpty(0).Average(), coherence.Select(Math.Abs).DefaultIfEmpty(0).Average(), coherence.Select(x => Math.Max(0, -x)).DefaultIfEmpty(0).Average());
    }

    private static double Middle(IEnumerable<double> decibels) => Robust.Median(decibels.DefaultIfEmpty(0));
}

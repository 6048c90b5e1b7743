using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Signals.Shaping;

/// <summary>
/// While wind lasts, the low band of the side is replaced by what the mid supports: the part of it that goes with the mid. Wind pushes each capsule by itself and
/// goes with nothing; a passing engine moves both.
/// </summary>
public sealed record WindReduction
{
    private const int MostRanges = 100_000;
    private readonly EquatableList<FrameRange> _ranges;

    /// <summary>Names the wind.</summary>
    /// <param name="ranges">Where wind lasts, in frames of the take: 1 to 100000 stretches, none empty, in any order.</param>
    /// <param name="cornerHertz">Top of the low band, where half of the replacement is done, 40 to 1000 Hz.</param>
    /// <param name="crossfadeMilliseconds">How long the change takes before and after each stretch, 1 to 5000 ms.</param>
    /// <exception cref="ArgumentException">A setting is out of range, or a stretch is empty.</exception>
    public WindReduction(IReadOnlyList<FrameRange> ranges, double cornerHertz, double crossfadeMilliseconds)
    {
        ArgumentNullException.ThrowIfNull(ranges);
        if (ranges.Count is 0 or > MostRanges)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Wind reduction names 1 to {MostRanges} stretches; given were {ranges.Count}."), nameof(ranges));
        foreach (var range in ranges)
        {
            if (range.From.Value < 0 || range.Length.Value <= 0)
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The stretch of wind from frame {range.From} to {range.To} is empty or begins before the take; give its first frame and the frame after its last."), nameof(ranges));
        }

        _ranges = new(ranges);
        CornerHertz = SettingsRules.Within(cornerHertz, 40, 1000, "Hz");
        CrossfadeMilliseconds = SettingsRules.Within(crossfadeMilliseconds, 1, 5000, "ms");
    }

    /// <summary>Where wind lasts.</summary>
    public IReadOnlyList<FrameRange> Ranges => _ranges;

    /// <summary>Top of the low band in hertz: −6 dB there, 48 dB an octave above.</summary>
    public double CornerHertz { get; }

    /// <summary>How long the change takes before and after each stretch, in milliseconds.</summary>
    public double CrossfadeMilliseconds { get; }
}

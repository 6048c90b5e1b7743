using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Power;

/// <summary>What a recording is stored as.</summary>
/// <param name="RateHertz">Sample rate, above 0.</param>
/// <param name="WordBits">Bits of a sample: 16, 24 or 32.</param>
/// <param name="Channels">Channels of a file; 2 for mid and side.</param>
public readonly record struct RecordingSettings(double RateHertz, int WordBits, int Channels = 2);

/// <summary>How long card and batteries last, and whether the phantom supply suffices; null is not known, see the reasons.</summary>
public sealed record PowerPlan
{
    /// <summary>Hours on one gigabyte (10⁹ bytes).</summary>
    public required double HoursPerGigabyte { get; init; }

    /// <summary>Hours on the recorder's storage.</summary>
    public double? StorageHours { get; init; }

    /// <summary>Seconds until the recorder cuts a file and begins the next; null when it never does or it is not known.</summary>
    public double? SplitSeconds { get; init; }

    /// <summary>Seconds to 2 GiB, where some recorders cut.</summary>
    public required double SecondsToTwoGibibytes { get; init; }

    /// <summary>Seconds to 4 GiB, the most a RIFF file holds.</summary>
    public required double SecondsToFourGibibytes { get; init; }

    /// <summary>Phantom current of both microphones in mA.</summary>
    public double? PhantomDrawnMilliamperes { get; init; }

    /// <summary>Whether the recorder can give it.</summary>
    public bool? PhantomSuffices { get; init; }

    /// <summary>Hours on one set of batteries with that current drawn.</summary>
    public double? BatteryHours { get; init; }

    /// <summary>Whether the recorder reaches the sample rate.</summary>
    public bool? RateSuffices { get; init; }

    /// <summary>Why an answer is null, and what does not suffice; empty when neither.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>Makes it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A setting or a figure of the kit is out of range.</exception>
    public static PowerPlan For(Recorder recorder, Microphone mid, Microphone side, RecordingSettings settings)
    {
        ArgumentNullException.ThrowIfNull(recorder);
        ArgumentNullException.ThrowIfNull(mid);
        ArgumentNullException.ThrowIfNull(side);
        var (rate, bits, channels) = settings;
        var reasons = new List<string>();
        var phantom = PhantomSupply.For(recorder, mid, side, reasons);
        return new()
        {
            HoursPerGigabyte = StorageTime.HoursPerGigabyte(rate, bits, channels),
            StorageHours = Known(recorder.StorageGigabytes, $"The storage of {recorder.Name} is not known: no hours on the card.", reasons) is { } gigabytes ? StorageTime.Hours(gigabytes, rate, bits, channels) : null,
            SplitSeconds = Known(recorder.SplitGibibytes, $"The size at which {recorder.Name} cuts files is not known (0 for never).", reasons) is { } split ? StorageTime.SplitSeconds(split, rate, bits, channels) : null,
            SecondsToTwoGibibytes = StorageTime.SplitSeconds(2, rate, bits, channels)!.Value,
            SecondsToFourGibibytes = StorageTime.SplitSeconds(4, rate, bits, channels)!.Value,
            PhantomDrawnMilliamperes = phantom.Drawn,
            PhantomSuffices = phantom.Suffices,
            BatteryHours = phantom.BatteryHours(recorder, reasons),
            RateSuffices = Known(recorder.MaximumRateHertz, $"The highest sample rate of {recorder.Name} is not known.", reasons) is { } highest ? rate <= highest : null,
            Reasons = reasons,
        };
    }

    internal static double? Known(double? figure, string text, List<string> reasons)
    {
        if (figure is null)
            reasons.Add(text);
        return figure;
    }
}

using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>Where a source at an azimuth lands in the decoded image.</summary>
/// <param name="Azimuth">Of the source, positive to the left; beyond ±90 degrees it is behind.</param>
/// <param name="LevelDifference">Left against right; null when neither hears it.</param>
/// <param name="Image">By the tangent law, signs aside, −30 to 30 degrees; null when nothing is heard.</param>
/// <param name="LinearPercent">By 7.5 % per dB, clamped to ±100, a figure from memory; null when nothing is heard.</param>
/// <param name="FullySideways">Whether the difference is at or beyond the threshold.</param>
/// <param name="OppositePolarity">Whether left and right hear it in opposite polarity, so that it sounds phasy and weakens in mono.</param>
/// <param name="MidInverted">Whether the mid hears it in opposite polarity; then what comes from the left lands right.</param>
/// <param name="LevelAgainstFront">Left and right together, against a source straight ahead; −∞ when nothing is heard.</param>
public sealed record SourceImage(
    Degrees Azimuth,
    Decibels? LevelDifference,
    Degrees? Image,
    double? LinearPercent,
    bool FullySideways,
    bool OppositePolarity,
    bool MidInverted,
    Decibels LevelAgainstFront)
{
    /// <summary>Amplitudes below this against the mid's axis count as nothing heard (−200 dB): the rounding of sines and cosines.</summary>
    private const double Nothing = 1e-10;

    /// <summary>Whether a source of the left lands right or the other way round.</summary>
    public bool Mirrored => Image is { } image && Math.Sign(Math.Round(image.Value, 9)) * Math.Sign(Math.Sin(Azimuth.Radians)) < 0;

    /// <summary>Where a source lands.</summary>
    public static SourceImage Of(MidSidePair pair, Degrees azimuth, Decibels threshold, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pair);
        var (left, right) = (Clean(pair.LeftGain(azimuth, frequency)), Clean(pair.RightGain(azimuth, frequency)));
        var difference = (left, right) == (0, 0) ? null : (Decibels?)Level(left, right);
        return new(
            azimuth,
            difference,
            difference is { } known ? ImagePosition.ByTangentLaw(known) : null,
            difference is { } also ? ImagePosition.ByLinearRule(also) : null,
            difference is { } size && Math.Abs(size.Value) >= threshold.Value,
            left * right < 0,
            pair.MidGain(azimuth, frequency) < -Nothing,
            Decibels.FromPowerRatio(Energy(left, right) / Energy(pair.LeftGain(default, frequency), pair.RightGain(default, frequency))));
    }

    /// <summary>The same for every whole step of azimuth, from −180 up to 180 degrees.</summary>
    public static IReadOnlyList<SourceImage> Around(MidSidePair pair, Degrees step, Decibels threshold, Hertz frequency)
    {
        if (!(step.Value is >= 0.1 and <= 180))
            throw new ArgumentOutOfRangeException(nameof(step), step.Value, "a step lies between 0.1 and 180 degrees");
        var count = (int)Math.Floor(360 / step.Value);
        return [.. Enumerable.Range(0, count + 1).Select(i => Of(pair, new(-180 + (i * step.Value)), threshold, frequency))];
    }

    private static double Clean(double gain) => Math.Abs(gain) < Nothing ? 0 : gain;

    private static Decibels Level(double left, double right)
        => right == 0 ? new(double.PositiveInfinity) : Decibels.FromAmplitudeRatio(left / right);

    private static double Energy(double left, double right) => (left * left) + (right * right);
}

/// <summary>A source ahead beside the one that mirrors it behind, at 180 degrees less.</summary>
/// <param name="Ahead">At the azimuth.</param>
/// <param name="Behind">At 180° − azimuth: on the same side, behind.</param>
/// <param name="LevelDifference">Behind against ahead, left and right together.</param>
/// <param name="Words">One sentence on where the one behind lands.</param>
public sealed record BehindImage(SourceImage Ahead, SourceImage Behind, Decibels LevelDifference, string Words)
{
    /// <summary>What happens to a source behind, by the one ahead at an azimuth of −90 to 90 degrees.</summary>
    public static BehindImage Of(MidSidePair pair, Degrees ahead, Decibels threshold, Hertz frequency)
    {
        if (!(Math.Abs(ahead.Value) <= 90))
            throw new ArgumentOutOfRangeException(nameof(ahead), ahead.Value, "a source ahead lies between −90 and 90 degrees");
        var behind = new Degrees((ahead.Value < 0 ? -180 : 180) - ahead.Value);
        var (front, rear) = (SourceImage.Of(pair, ahead, threshold, frequency), SourceImage.Of(pair, behind, threshold, frequency));
        return new(front, rear, rear.LevelAgainstFront - front.LevelAgainstFront, Describe(front, rear));
    }

    private static string Describe(SourceImage front, SourceImage rear)
    {
        if (rear.Image is not { } image)
            return "nothing is heard from there";
        if (front.Image is { } ahead && Math.Abs(image.Value - ahead.Value) < 0.05 && rear.OppositePolarity == front.OppositePolarity)
            return "lands where the source ahead lands: behind and ahead cannot be told apart";
        if (rear.Mirrored)
            return rear.OppositePolarity ? "lands on the wrong side, left and right in opposite polarity" : "lands on the wrong side";
        if (rear.OppositePolarity)
            return "left and right hear it in opposite polarity: it has no firm place and weakens in mono";
        return rear.FullySideways ? "lands wholly at one side" : "lands on its own side";
    }
}

using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>The sound a source gives off, as pressure at 1 m over time, before its level is set.</summary>
/// <remarks>All signals end below 0.42 of the sample rate, so that they can be delayed by parts of a sample.</remarks>
public abstract record SourceSignal
{
    /// <summary>The highest part of the sample rate a signal may reach.</summary>
    internal const double Ceiling = 0.42;

    /// <summary>When it strikes, seconds of the source's own time; empty for what goes on.</summary>
    public virtual IReadOnlyList<double> Onsets => [];

    /// <summary>Samples at 1 m with root mean square 1, or peak 1 for what strikes.</summary>
    internal abstract double[] Render(SignalGrid grid, Chance chance);
}

/// <summary>The samples a signal is wanted at.</summary>
/// <param name="Rate">Sample rate in hertz.</param>
/// <param name="FirstSeconds">The time of the first sample; negative when the sound is on its way before the take starts.</param>
/// <param name="Count">How many.</param>
internal readonly record struct SignalGrid(double Rate, double FirstSeconds, int Count)
{
    /// <summary>The time of a sample.</summary>
    public double SecondsAt(int index) => FirstSeconds + (index / Rate);

    /// <summary>The highest frequency a signal may have.</summary>
    public double Highest => SourceSignal.Ceiling * Rate;

    /// <summary>Scales to a root mean square of 1; silence stays silence.</summary>
    public static double[] ToUnitRms(double[] samples) => Scaled(samples, Levels.Rms(samples));

    /// <summary>Scales to a peak of 1; silence stays silence.</summary>
    public static double[] ToUnitPeak(double[] samples) => Scaled(samples, Levels.Peak(samples));

    private static double[] Scaled(double[] samples, double size)
    {
        if (size > 0)
            Levels.Scale(samples, 1 / size);
        return samples;
    }
}

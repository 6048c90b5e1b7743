using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>What a recorder's input can be set to; gains and step in dB, a step of 0 turns freely.</summary>
internal readonly record struct GainRange(double Lowest, double Highest, double Step, double MaximumInputDecibelsU)
{
    /// <summary>The most steps a ladder shows; a finer control is shown at every whole decibel.</summary>
    private const int MostRungs = 400;

    public static GainRange? Of(Recorder recorder)
        => recorder is { MinimumGainDecibels: { } lowest, MaximumGainDecibels: { } highest, GainStepDecibels: { } step, MaximumInputDecibelsU: { } maximum }
            ? new(Require.Finite(lowest), Require.Within(highest, lowest, double.MaxValue), Require.NotNegative(step), Require.Finite(maximum))
            : null;

    public double FullScale(double decibelsU, double gain) => InputLevels.ToDecibelsFullScale(decibelsU, MaximumInputDecibelsU, Lowest, gain);

    public IEnumerable<double> Gains()
    {
        var step = Step == 0 || (Highest - Lowest) / Step > MostRungs ? 1 : Step;
        var count = (int)Math.Min(MostRungs, Math.Floor(((Highest - Lowest) / step) + 1e-9));
        for (var rung = 0; rung <= count; rung++)
            yield return Lowest + (rung * step);
    }
}

using Athwart.Jobs.Render;
using Athwart.Jobs.Roles;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Signals.Decoding;

namespace Athwart.Jobs.Shape;

/// <summary>What the pair measures at one place of a treatment.</summary>
/// <param name="After">The step it was measured after, in words; 'as recorded' before the first.</param>
/// <param name="Mid">Level of the mid, RMS.</param>
/// <param name="Side">Level of the side, RMS.</param>
/// <param name="Correlation">Of left and right as decoded, −1 to 1; not a number for silence.</param>
/// <param name="Peak">The highest sample of left and right as decoded.</param>
/// <param name="LoudnessLufs">Integrated loudness as decoded; −∞ for silence.</param>
public sealed record StepFigures(string After, DecibelsFullScale Mid, DecibelsFullScale Side, double Correlation, DecibelsFullScale Peak, double LoudnessLufs);

/// <summary>Measures a piece of a take before a treatment and after each of its steps.</summary>
public static class MeasureJob
{
    private const int BlockFrames = 4096;

    /// <summary>Measures.</summary>
    /// <param name="take">The take.</param>
    /// <param name="roles">Which channel is which.</param>
    /// <param name="treated">The treatment, settled.</param>
    /// <param name="sideGain">g of the decode.</param>
    /// <param name="from">The first frame.</param>
    /// <param name="to">The frame after the last.</param>
    /// <param name="cancellation">Stops between blocks.</param>
    /// <returns>As recorded, then after each step.</returns>
    public static IReadOnlyList<StepFigures> Run(TakeDescription take, RoleAssignment roles, SettledTreatment treated, double sideGain, long from, long to, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(treated);
        using var recording = take.Open();
        return
        [
            .. Enumerable.Range(0, treated.Steps.Count + 1).Select(count => Figures(
                count == 0 ? "as recorded" : treated.Steps[count - 1].ToString(),
                TreatedStream.Open(recording, roles, [.. treated.Steps.Take(count)], sideGain, from, to),
                take.SampleRateHertz,
                sideGain,
                from,
                cancellation)),
        ];
    }

    private static StepFigures Figures(string after, TreatedChain chain, int rate, double sideGain, long from, CancellationToken cancellation)
    {
        var meter = new ProgrammeMeter(rate);
        double[] mid = new double[BlockFrames], side = new double[BlockFrames];
        float[] left = new float[BlockFrames], right = new float[BlockFrames];
        double mids = 0, sides = 0, lefts = 0, rights = 0, cross = 0, peak = 0;
        chain.Pair.Begin(from);
        for (long at = 0; at < chain.Length; at += BlockFrames)
        {
            cancellation.ThrowIfCancellationRequested();
            var count = (int)Math.Min(BlockFrames, chain.Length - at);
            Span<double> m = mid.AsSpan(0, count), s = side.AsSpan(0, count);
            chain.Pair.Read(m, s);
            for (var n = 0; n < count; n++)
                (mids, sides) = (mids + (m[n] * m[n]), sides + (s[n] * s[n]));
            MidSide.Decode(m, s, sideGain, m, s);
            for (var n = 0; n < count; n++)
            {
                (lefts, rights, cross) = (lefts + (m[n] * m[n]), rights + (s[n] * s[n]), cross + (m[n] * s[n]));
                peak = Math.Max(peak, Math.Max(Math.Abs(m[n]), Math.Abs(s[n])));
                (left[n], right[n]) = ((float)m[n], (float)s[n]);
            }

            meter.Add(left.AsSpan(0, count), right.AsSpan(0, count));
        }

        var frames = Math.Max(1, chain.Length);
        return new(
            after,
            DecibelsFullScale.FromAmplitude(Math.Sqrt(mids / frames)),
            DecibelsFullScale.FromAmplitude(Math.Sqrt(sides / frames)),
            lefts * rights > 0 ? cross / Math.Sqrt(lefts * rights) : double.NaN,
            DecibelsFullScale.FromAmplitude(peak),
            meter.Complete().IntegratedLufs);
    }
}

using Athwart.Quantities;
using Athwart.Signals.Fourier;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>A constant delay between mid and side, from the phase of what they have in common.</summary>
internal static class SideDelay
{
    private const int Points = 8192;
    private const double Widest = 4e-3, Clear = 7, FewestBins = 60, Smallest = 0.7 / 48_000;

    private readonly record struct Answer(double Seconds, double Clearness, double Fit);

    /// <summary>The delay of the side in seconds, positive when it is late, and how well one delay explains all frequencies, 0 to 1; null when mid and side have too little in common.</summary>
    public static (double Seconds, double Fit)? Measure(PairCross cross, int sampleRateHertz)
    {
        if (cross.Groups < 2)
            return null;
        // What has nothing in common gives each group and bin a coherence of 1/8 at any phase, and its root without the square.
        var turns = sampleRateHertz / (double)PairCross.Length;
        var plain = Best(cross.Plain, turns, 1, Math.Sqrt(0.5 / PairCross.Group), cross.Groups);
        var square = Best(cross.Square, 2 * turns, 0, Math.Sqrt(2) / PairCross.Group, cross.Groups);
        return (plain, square) switch
        {
            ({ } a, { } b) => a.Clearness > b.Clearness ? (a.Seconds, a.Fit) : (b.Seconds, b.Fit),
            ({ } a, null) => (a.Seconds, a.Fit),
            (null, { } b) => (b.Seconds, b.Fit),
            _ => null,
        };
    }

    /// <summary>The delay whose phases a spectrum follows best; null when it is not clear.</summary>
    /// <param name="spectrum">For each bin.</param>
    /// <param name="hertzOfBin">How fast the phase of bin 1 turns with the delay, turns a second.</param>
    /// <param name="signed">1 when the whole may have either sign.</param>
    /// <param name="chance">What one group and bin give by chance, root mean square of one part.</param>
    /// <param name="groups">Groups.</param>
    private static Answer? Best((double Re, double Im)[] spectrum, double hertzOfBin, int signed, double chance, int groups)
    {
        var (from, to) = signed == 1 ? Bins(hertzOfBin) : Bins(hertzOfBin / 2);
        if (to - from < 24)
            return null;
        var grid = Grid(spectrum, from, to, signed == 1);
        var step = 1 / (hertzOfBin * Points);
        var reach = Math.Min((int)(Widest / step), (Points / 2) - 1);
        var at = Enumerable.Range(-reach, (2 * reach) + 1).MaxBy(n => grid[(n + Points) % Points]);
        var most = grid[(at + Points) % Points];
        var rival = Enumerable.Range(-reach, (2 * reach) + 1).Where(n => Math.Abs(n - at) * step > 2.5e-4).Max(n => grid[(n + Points) % Points]);
        var (total, squares) = (0.0, 0.0);
        for (var k = from; k < to; k++)
        {
            var power = (spectrum[k].Re * spectrum[k].Re) + (spectrum[k].Im * spectrum[k].Im);
            (total, squares) = (total + Math.Sqrt(power), squares + power);
        }

        // A dozen tones have a dozen phases, which many delays explain.
        if (total * total < FewestBins * squares)
            return null;
        var clearness = most / (chance * Math.Sqrt((double)groups * (to - from)));
        return clearness < Clear || rival > 0.75 * most ? null : new(Refine(spectrum, from, to, hertzOfBin, at * step, step), clearness, most / total);
    }

    /// <summary>From the nearest point of the grid to a nanosecond: there the slope of the sum is nothing.</summary>
    private static double Refine((double Re, double Im)[] spectrum, int from, int to, double hertzOfBin, double seconds, double step)
    {
        var best = (Seconds: seconds, Value: Math.Abs(At(spectrum, from, to, hertzOfBin, seconds)));
        for (; step > 1e-9; step /= 2)
        {
            foreach (var t in (double[])[best.Seconds - (step / 2), best.Seconds + (step / 2)])
            {
                var value = Math.Abs(At(spectrum, from, to, hertzOfBin, t));
                if (value > best.Value)
                    best = (t, value);
            }
        }

        return best.Seconds;
    }

    /// <summary>How well each delay explains the phases, for delays 1/(turns·8192) apart.</summary>
    private static float[] Grid((double Re, double Im)[] spectrum, int from, int to, bool signed)
    {
        var (real, imaginary) = (new float[Points], new float[Points]);
        for (var k = from; k < to; k++)
            (real[k], imaginary[k]) = ((float)spectrum[k].Re, (float)spectrum[k].Im);
        new FourierTransform(Points).Forward(real, imaginary);
        return signed ? Array.ConvertAll(real, MathF.Abs) : real;
    }

    private static double At((double Re, double Im)[] spectrum, int from, int to, double hertzOfBin, double seconds)
    {
        var sum = 0.0;
        for (var k = from; k < to; k++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * k * hertzOfBin * seconds);
            sum += (spectrum[k].Re * cos) + (spectrum[k].Im * sin);
        }

        return sum;
    }

    /// <summary>400 Hz to 12 kHz: below, the low ends of two capsules turn the phase by themselves; above, their diaphragms do.</summary>
    private static (int From, int To) Bins(double width) =>
        ((int)Math.Ceiling(400 / width), (int)Math.Min(12_000 / width, PairCross.Bins * 0.9));

    public static Finding? Find(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { } cross || Measure(cross, m.SampleRateHertz) is not { } delay || Math.Abs(delay.Seconds) < Smallest || delay.Fit < 0.1)
            return null;
        var samples = delay.Seconds * m.SampleRateHertz;
        var centimetres = Math.Abs(delay.Seconds) * 34_300;
        var spaced = centimetres <= 12;
        var late = delay.Seconds > 0;
        return new()
        {
            Kind = FaultKinds.SideDelay,
            Severity = spaced ? FindingSeverity.Note : FindingSeverity.Caution,
            Role = ChannelRole.Side,
            Size = samples,
            SizeUnit = "samples",
            Confidence = Math.Clamp(delay.Fit + 0.2, 0.6, 0.95),
            Message = Text($"The side comes {Math.Abs(samples):0.0} samples ({1e6 * Math.Abs(delay.Seconds):0} µs) {(late ? "later" : "earlier")} than the mid. {(spaced ? Text($"A side capsule {centimetres:0.0} cm {(late ? "behind" : "before")} the mid does that for sound from the front") : "No spacing of a pair explains that: look for a delay in the recorder or a wireless link")}; decoded, left and right are coloured and the image leans by frequency, mono is not concerned."),
            Remedy = Text($"Shift the side by {-samples:+0.0;−0.0} samples before decoding."),
            Evidence = [new("delay", 1e6 * delay.Seconds, "µs"), new("fit of one delay to all frequencies", delay.Fit, ""), new("as a spacing", centimetres, "cm")],
        };
    }
}

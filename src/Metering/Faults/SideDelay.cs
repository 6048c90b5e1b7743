using Athwart.Quantities;
using Athwart.Signals.Fourier;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>A constant delay between mid and side, from the phase of what they have in common.</summary>
internal static class SideDelay
{
    private const int Points = 8192;
    private const double Widest = 4e-3, Clear = 8, Smallest = 0.7 / 48_000;

    /// <summary>The delay of the side in seconds, positive when it is late, and how well one delay explains all frequencies, 0 to 1; null when mid and side have too little in common.</summary>
    public static (double Seconds, double Fit)? Measure(PairCross cross, int sampleRateHertz)
    {
        var bins = Bins(cross, sampleRateHertz);
        if (cross.Groups < 2 || bins.Count < 24)
            return null;
        var grid = Grid(First(sampleRateHertz), bins);
        var step = PairCross.Length / (2.0 * sampleRateHertz * Points);
        var (most, best) = (double.NegativeInfinity, 0.0);
        for (var n = -Points / 2; n < Points / 2; n++)
        {
            if (Math.Abs(n * step) <= Widest && grid[(n + Points) % Points] > most)
                (most, best) = (grid[(n + Points) % Points], n * step);
        }

        var rival = Rival(grid, best, step);
        for (; step > 1e-9; step /= 2)
        {
            foreach (var t in (double[])[best - (step / 2), best + (step / 2)])
            {
                var at = At(bins, t);
                if (at > most)
                    (most, best) = (at, t);
            }
        }

        // What has nothing in common gives each group and bin a coherence of 1/8 at any phase.
        var chance = Math.Sqrt(2) / PairCross.Group * Math.Sqrt((double)cross.Groups * bins.Count);
        return most < Clear * chance || rival > 0.7 * most ? null : (best, most / bins.Sum(b => b.Weight));
    }

    /// <summary>How well each delay explains the phases: the transform of the squared cross-spectrum, whose phase is twice that of the delay.</summary>
    private static float[] Grid(int from, List<(double Omega, double Re, double Im, double Weight)> bins)
    {
        var (real, imaginary) = (new float[Points], new float[Points]);
        for (var i = 0; i < bins.Count; i++)
            (real[from + i], imaginary[from + i]) = ((float)bins[i].Re, (float)bins[i].Im);
        new FourierTransform(Points).Forward(real, imaginary);
        return real;
    }

    /// <summary>The best answer that is at least a quarter of a millisecond away: tones have many.</summary>
    private static double Rival(float[] grid, double best, double step)
    {
        var most = 0.0;
        for (var n = (int)(-Widest / step); n <= Widest / step; n++)
            most = Math.Abs((n * step) - best) > 2.5e-4 ? Math.Max(most, grid[(n + Points) % Points]) : most;
        return most;
    }

    public static Finding? Find(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { } cross || Measure(cross, m.SampleRateHertz) is not { } delay || Math.Abs(delay.Seconds) < Smallest || delay.Fit < 0.15)
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

    private static int First(int rate) => (int)Math.Ceiling(400.0 * PairCross.Length / rate);

    private static List<(double Omega, double Re, double Im, double Weight)> Bins(PairCross cross, int rate)
    {
        // Below 400 Hz the low ends of two capsules turn the phase by themselves; above 12 kHz their diaphragms do.
        var width = rate / (double)PairCross.Length;
        var (from, to) = (First(rate), (int)Math.Min(12_000 / width, PairCross.Bins * 0.9));
        var bins = new List<(double, double, double, double)>();
        for (var k = from; k < to; k++)
        {
            var (re, im) = cross.Square[k];
            bins.Add((4 * Math.PI * k * width, re, im, Math.Sqrt((re * re) + (im * im))));
        }

        return bins;
    }

    private static double At(List<(double Omega, double Re, double Im, double Weight)> bins, double seconds)
    {
        var sum = 0.0;
        foreach (var (omega, re, im, _) in bins)
        {
            var (sin, cos) = Math.SinCos(omega * seconds);
            sum += (re * cos) + (im * sin);
        }

        return sum;
    }
}

using System.Globalization;
using Athwart.Signals.Resampling;
using CsCheck;

namespace Athwart.Signals.Tests.Resampling;

public sealed class SampleRateConverterTests
{
    private static readonly int[] Rates = [44100, 48000, 88200, 96000, 176400, 192000];

    public static TheoryData<int, int> Directions
    {
        get
        {
            var all = new TheoryData<int, int>();
            foreach (var from in Rates)
            {
                foreach (var to in Rates.Where(to => to != from))
                    all.Add(from, to);
            }

            return all;
        }
    }

    // Issue 2, section 4: flat within 0.01 dB to 0.9 of the lower Nyquist, images and aliases at least 120 dB down. Ours: 0.008 dB and 130 dB.
    [Theory]
    [MemberData(nameof(Directions))]
    public void Convert_TonesAcrossTheBand_IsFlatAndFreeOfImagesAndAliases(int from, int to)
    {
        var converter = new SampleRateConverter(from, to);
        var nyquist = Math.Min(from, to) / 2.0;
        double ripple = 0, residue = double.NegativeInfinity, alias = double.NegativeInfinity;
        for (var part = 0.01; part <= 0.9001; part += 0.0178)
        {
            var (gain, rest) = Tone(converter, part * nyquist);
            ripple = Math.Max(ripple, Math.Abs(20 * Math.Log10(gain)));
            residue = Math.Max(residue, rest);
        }

        for (var hertz = nyquist * 1.0001; to < from && hertz < from / 2.0; hertz += nyquist * 0.0137)
            alias = Math.Max(alias, Level(converter, [hertz]));
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{from} to {to} Hz: passband within {ripple:0.0000} dB to 0.9 Nyquist, images and distortion {residue:0.0} dB, aliases {alias:0.0} dB"));
        Assert.True(ripple <= 0.008, $"ripple {ripple} dB");
        Assert.True(residue <= -130, $"images {residue} dB");
        Assert.True(alias <= -130, $"aliases {alias} dB");
    }

    [Theory]
    [InlineData(96000, 48000), InlineData(48000, 44100), InlineData(192000, 44100), InlineData(192000, 88200)]
    public void Convert_SweepAndChordAboveTheNewNyquist_LeavesLessThanMinus125Decibels(int from, int to)
    {
        var converter = new SampleRateConverter(from, to);
        double low = to / 2.0 * 1.002, high = from / 2.0 * 0.999;
        var chord = Enumerable.Range(0, 8).Select(k => low + ((high - low) * k / 8)).ToArray();
        var sweep = new double[from / 2];
        double phase = 0;
        for (var n = 0; n < sweep.Length; n++)
        {
            phase += 2 * Math.PI * (low + ((high - low) * n / sweep.Length)) / from;
            sweep[n] = Math.Sin(phase) * Math.Pow(Math.Sin(Math.PI * n / sweep.Length), 8); // a start or a kink would be wide-band
        }

        var output = new double[converter.OutputLength(sweep.Length)];
        converter.Convert(sweep, 0, 0, output);
        var sweepLevel = 20 * Math.Log10(output.Max(Math.Abs));
        var chordLevel = Level(converter, chord);
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{from} to {to} Hz: sweep {sweepLevel:0.0} dB, chord of 8 {chordLevel:0.0} dB"));
        Assert.True(sweepLevel < -125, $"{sweepLevel} dB");
        Assert.True(chordLevel < -125, $"{chordLevel} dB");
    }

    [Theory]
    [MemberData(nameof(Directions))]
    public void OutputLength_OneSecondAndOddLengths_IsTheRatioRoundedUp(int from, int to)
    {
        var converter = new SampleRateConverter(from, to);
        Assert.Equal(to, converter.OutputLength(from));
        Assert.Equal(0, converter.OutputLength(0));
        foreach (var length in new long[] { 1, 2, 147, 12_345, 4L * 3600 * 192000 })
            Assert.Equal((long)Math.Ceiling((decimal)length * to / from), converter.OutputLength(length));
    }

    [Theory]
    [MemberData(nameof(Directions))]
    public void Convert_AClickInTheMiddle_StaysAtItsTimeAndIsSymmetric(int from, int to)
    {
        var converter = new SampleRateConverter(from, to);
        // One second lies on a frame of every rate.
        var input = new double[2 * from];
        input[from] = 1;
        var output = new double[2 * to];
        converter.Convert(input, 0, 0, output);
        Assert.Equal(to, Array.IndexOf(output, output.Max()));
        for (var n = 1; n < 400; n++)
            Assert.Equal(output[to + n], output[to - n], 1e-15);
    }

    [Fact]
    public void Convert_Constant_KeepsItsValueAwayFromTheEnds()
    {
        foreach (var to in Rates.Where(to => to != 96000))
        {
            var converter = new SampleRateConverter(96000, to);
            var input = new double[20_000];
            Array.Fill(input, 0.5);
            var output = new double[200];
            converter.Convert(input, 0, converter.OutputLength(8000), output);
            Assert.All(output, v => Assert.Equal(0.5, v, 2e-7));
        }
    }

    [Theory]
    [InlineData(96000, 48000), InlineData(44100, 48000), InlineData(48000, 96000)]
    public void Convert_Noise_AgreesWithTheDirectSumOverThePlatformsSine(int from, int to)
    {
        var converter = new SampleRateConverter(from, to);
        var random = new Random(5);
        var input = Enumerable.Range(0, 900).Select(_ => (random.NextDouble() * 2) - 1).ToArray();
        var output = new double[converter.OutputLength(input.Length)];
        converter.Convert(input, 0, 0, output);
        for (var n = 0; n < output.Length; n += 7)
            Assert.Equal(Direct(input, (double)n * from / to, Math.Min(1, (double)to / from)), output[n], 1e-12);
    }

    [Fact]
    public void Convert_CutAnywhereAndAsAPair_GivesTheBitsOfTheWhole()
    {
        var random = new Random(11);
        var input = Enumerable.Range(0, 3000).Select(_ => (random.NextDouble() * 2) - 1).ToArray();
        var other = Enumerable.Reverse(input).ToArray();
        Gen.Select(Gen.Int[0, 5].Select(n => Rates[n]), Gen.Int[0, 5].Select(n => Rates[n]), Gen.Double[0, 1], Gen.Int[1, 400]).Where((from, to, _, _) => from != to).Sample((from, to, start, count) =>
        {
            var converter = new SampleRateConverter(from, to);
            var whole = new double[converter.OutputLength(input.Length)];
            converter.Convert(input, 0, 0, whole);
            var first = (int)(start * (whole.Length - 1));
            count = Math.Min(count, whole.Length - first);
            var (a, b) = converter.InputRange(first, count);
            int cutFrom = (int)Math.Max(0, a), cutTo = (int)Math.Min(input.Length, b);
            double[] one = new double[count], two = new double[count], three = new double[count];
            converter.Convert(input.AsSpan(cutFrom, cutTo - cutFrom), cutFrom, first, one);
            converter.Convert(other.AsSpan(cutFrom, cutTo - cutFrom), input.AsSpan(cutFrom, cutTo - cutFrom), cutFrom, first, two, three);
            Assert.Equal(whole[first..(first + count)], one);
            Assert.Equal(one, three);
        }, iter: 60);
    }

    [Fact]
    public void New_UnknownOrEqualRates_IsRejected()
    {
        Assert.Throws<ArgumentException>(() => new SampleRateConverter(48000, 48000));
        Assert.Throws<ArgumentException>(() => new SampleRateConverter(48000, 22050));
        Assert.False(SampleRateConverter.Supports(8000, 48000));
    }

    // The design written again with the platform's functions: figures as in PolyphaseTable.
    private static double Direct(double[] input, double place, double lower)
    {
        const double Attenuation = 134, Transition = 0.112;
        var half = (Attenuation - 7.95) / (14.36 * Transition / 2) / 2 / lower;
        var cutoff = lower * (1 - (Transition / 2));
        var beta = 0.1102 * (Attenuation - 8.7);
        double sum = 0;
        for (var k = 0; k < input.Length; k++)
        {
            var t = k - place;
            if (Math.Abs(t) < half)
                sum += input[k] * cutoff * (t == 0 ? 1 : Math.Sin(Math.PI * cutoff * t) / (Math.PI * cutoff * t)) * Bessel(beta * Math.Sqrt(1 - (t * t / half / half))) / Bessel(beta);
        }

        return sum;
    }

    private static double Bessel(double x)
    {
        // I0(x) = (1/π)∫exp(x·cos θ)dθ, by the trapezoidal rule, which converges geometrically for a periodic integrand.
        double sum = 0;
        for (var n = 0; n < 128; n++)
            sum += Math.Exp(x * Math.Cos(2 * Math.PI * n / 128));
        return sum / 128;
    }

    // Gain of a tone by least squares, and what is left beside it in dB below it.
    private static (double Gain, double Residue) Tone(SampleRateConverter converter, double hertz)
    {
        var (output, first) = Steady(converter, [hertz]);
        double sc = 0, ss = 0, cc = 0, sy = 0, cy = 0;
        for (var n = 0; n < output.Length; n++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * hertz * (first + n) / converter.ToHertz);
            ss += s * s;
            cc += c * c;
            sc += s * c;
            sy += s * output[n];
            cy += c * output[n];
        }

        var det = (ss * cc) - (sc * sc);
        double a = ((sy * cc) - (cy * sc)) / det, b = ((cy * ss) - (sy * sc)) / det, rest = 0;
        for (var n = 0; n < output.Length; n++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * hertz * (first + n) / converter.ToHertz);
            rest = Math.Max(rest, Math.Abs(output[n] - (a * s) - (b * c)));
        }

        return (Math.Sqrt((a * a) + (b * b)), 20 * Math.Log10(rest));
    }

    private static double Level(SampleRateConverter converter, double[] tones) => 20 * Math.Log10(Steady(converter, tones).Output.Max(Math.Abs));

    private static (double[] Output, long First) Steady(SampleRateConverter converter, double[] tones)
    {
        const int Count = 600;
        var first = converter.OutputLength(2L * converter.Reach) + 1;
        var (from, to) = converter.InputRange(first, Count);
        var input = new double[to - from + 16];
        for (var n = 0; n < input.Length; n++)
            input[n] = tones.Sum(hertz => Math.Sin(2 * Math.PI * hertz * (from + n) / converter.FromHertz));
        var output = new double[Count];
        converter.Convert(input, from, first, output);
        return (output, first);
    }
}

using System.Globalization;
using Athwart.Signals.Resampling;
using CsCheck;

namespace Athwart.Signals.Tests.Resampling;

public sealed class SpeedChangeTests
{
    public static TheoryData<double> Speeds => [1.0 / 32, 0.1, 0.25, 0.4999, 0.5, Math.PI / 4, 0.99, 1.01, 1.5, 2, 2.71828, 7.3, 16, 32];

    // Issue 5, section 3: the best interpolation. Tones across the band against the same tone computed at the places of the output.
    [Theory]
    [MemberData(nameof(Speeds))]
    public void Tones_ComeOutAsComputedAtTheirPlaces(double speed)
    {
        var change = new SpeedChange(speed);
        var stretch = Math.Max(1, speed);
        double ripple = 0, residue = double.NegativeInfinity;
        for (var part = 0.03; part <= 0.9001; part += 0.0435)
        {
            // In cycles for each input frame.
            var frequency = part / 2 / stretch;
            var (gain, rest) = Tone(change, frequency);
            ripple = Math.Max(ripple, Math.Abs(20 * Math.Log10(gain)));
            residue = Math.Max(residue, rest);
        }

        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"speed {speed:0.#####}: within {ripple:0.0000} dB to 0.9 of the lower Nyquist frequency, all else {residue:0.0} dB"));
        Assert.True(ripple <= 0.008, $"ripple {ripple} dB");
        Assert.True(residue <= -130, $"residue {residue} dB");
    }

    // Faster: whatever lies above the new Nyquist frequency must not fold back.
    [Theory]
    [InlineData(1.01), InlineData(1.5), InlineData(2), InlineData(2.71828), InlineData(7.3), InlineData(16), InlineData(32)]
    public void TonesAboveTheNewNyquist_AreGone(double speed)
    {
        var change = new SpeedChange(speed);
        var alias = double.NegativeInfinity;
        for (var frequency = 0.5 / speed * 1.0005; frequency < 0.5; frequency *= 1.0537)
        {
            var (output, _, _) = Steady(change, frequency);
            alias = Math.Max(alias, 20 * Math.Log10(output.Max(Math.Abs)));
        }

        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"speed {speed:0.#####}: aliases {alias:0.0} dB"));
        Assert.True(alias <= -130, $"aliases {alias} dB");
    }

    // Ultrasonic content brought down: 30 kHz recorded at 96 kHz, at half speed, are 15 kHz.
    [Fact]
    public void ThirtyKilohertzAtHalfSpeed_AreFifteen()
    {
        var input = Enumerable.Range(0, 4000).Select(n => Math.Sin(2 * Math.PI * 30_000 * n / 96_000)).ToArray();
        var change = new SpeedChange(0.5);
        var output = new double[change.OutputLength(input.Length)];
        change.Convert(input, 0, 0, output);

        Assert.Equal(8000, output.Length);
        for (var n = 1000; n < 7000; n++)
            Assert.Equal(Math.Sin(2 * Math.PI * 15_000 * n / 96_000), output[n], 1e-3);
    }

    [Fact]
    public void SpeedOne_KeepsEveryBit()
    {
        var input = new Random(3).GetItems([0.1, -0.7, 0.33, 1e-9], 300);
        var output = new double[300];
        new SpeedChange(1).Convert(input, 0, 0, output);
        Assert.Equal(input, output);
    }

    [Fact]
    public void AtHalfSpeed_AClickStaysAtItsTimeAndIsSymmetric()
    {
        var input = new double[1000];
        input[500] = 1;
        var output = new double[2000];
        new SpeedChange(0.5).Convert(input, 0, 0, output);
        Assert.Equal(1000, Array.IndexOf(output, output.Max()));
        for (var n = 1; n < 140; n++)
            Assert.Equal(output[1000 + n], output[1000 - n], 1e-15);
    }

    [Fact]
    public void AConstant_KeepsItsValueAwayFromTheEnds()
        => Gen.Double[-5, 5].Select(octaves => Math.Pow(2, octaves)).Sample(speed =>
        {
            var change = new SpeedChange(speed);
            var input = new double[3 * change.Reach];
            Array.Fill(input, 0.5);
            var output = new double[5];
            change.Convert(input, 0, change.OutputLength(change.Reach) + 1, output);
            Assert.All(output, v => Assert.Equal(0.5, v, 3e-7));
        }, iter: 20);

    [Fact]
    public void CutAnywhereAndAsAPair_GivesTheBitsOfTheWhole()
    {
        var random = new Random(11);
        double[] input = [.. Enumerable.Range(0, 3000).Select(_ => (random.NextDouble() * 2) - 1)], other = [.. Enumerable.Reverse(input)];
        Gen.Select(Gen.Double[-4, 4], Gen.Double[0, 1], Gen.Int[1, 400]).Sample((octaves, start, count) =>
        {
            var change = new SpeedChange(Math.Pow(2, octaves));
            var whole = new double[Math.Min(20_000, change.OutputLength(input.Length))];
            change.Convert(input, 0, 0, whole);
            var first = (int)(start * (whole.Length - 1));
            count = Math.Min(count, whole.Length - first);
            var (a, b) = change.InputRange(first, count);
            int from = (int)Math.Max(0, a), to = (int)Math.Min(input.Length, b);
            double[] one = new double[count], two = new double[count], three = new double[count];
            change.Convert(input.AsSpan(from, to - from), from, first, one);
            change.Convert(other.AsSpan(from, to - from), input.AsSpan(from, to - from), from, first, two, three);
            Assert.Equal(whole[first..(first + count)], one);
            Assert.Equal(one, three);
        }, iter: 25);
    }

    [Fact]
    public void AfterHours_PlacesAreStillExact()
    {
        // 7 hours at 192 kHz in: a place in plain floating point would be off by a ten-millionth of a frame and more.
        const long Output = 4_838_400_000;
        var change = new SpeedChange(0.3);
        Assert.Equal(Output * 0.3, change.InputPlace(Output), 1e-6);
        var exact = new SpeedChange(1.0 + (1.0 / 1024));
        Assert.Equal(Output + (Output / 1024), exact.InputRange(Output, 1).To - exact.Reach - 1);
    }

    [Theory]
    [InlineData(0.5, 1000, 2000)]
    [InlineData(2, 1001, 501)]
    [InlineData(1, 77, 77)]
    [InlineData(3, 0, 0)]
    public void TheLength_IsTheInputOverTheSpeedRoundedUp(double speed, long input, long output)
        => Assert.Equal(output, new SpeedChange(speed).OutputLength(input));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(0.03)]
    [InlineData(33)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void ASpeedOutOfRange_IsRefused(double speed) => Assert.Throws<ArgumentOutOfRangeException>(() => new SpeedChange(speed));

    // Gain of a tone by least squares, and what is left beside it in dB below full scale.
    private static (double Gain, double Residue) Tone(SpeedChange change, double frequency)
    {
        var (output, first, _) = Steady(change, frequency);
        double sc = 0, ss = 0, cc = 0, sy = 0, cy = 0, rest = 0;
        for (var n = 0; n < output.Length; n++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * frequency * change.InputPlace(first + n));
            (ss, cc, sc, sy, cy) = (ss + (s * s), cc + (c * c), sc + (s * c), sy + (s * output[n]), cy + (c * output[n]));
        }

        var det = (ss * cc) - (sc * sc);
        double a = ((sy * cc) - (cy * sc)) / det, b = ((cy * ss) - (sy * sc)) / det;
        for (var n = 0; n < output.Length; n++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * frequency * change.InputPlace(first + n));
            rest = Math.Max(rest, Math.Abs(output[n] - (a * s) - (b * c)));
        }

        return (Math.Sqrt((a * a) + (b * b)), 20 * Math.Log10(rest));
    }

    private static (double[] Output, long First, int Count) Steady(SpeedChange change, double frequency)
    {
        const int Count = 400;
        var first = change.OutputLength(2L * change.Reach) + 3;
        var (from, to) = change.InputRange(first, Count);
        var input = new double[to - from + 16];
        for (var n = 0; n < input.Length; n++)
            input[n] = Math.Sin(2 * Math.PI * frequency * (from + n));
        var output = new double[Count];
        change.Convert(input, from, first, output);
        return (output, first, Count);
    }
}

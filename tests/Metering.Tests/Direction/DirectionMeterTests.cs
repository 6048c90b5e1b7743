using Athwart.Metering.Direction;

namespace Athwart.Metering.Tests.Direction;

public static class DirectionMeterTests
{
    private const int Rate = 48_000;

    // side/mid = sin a / (A + B cos a): the closed form backwards, for every mid that is deaf or softer behind.
    [Theory]
    [InlineData(0.5), InlineData(0.366025), InlineData(0.25), InlineData(0.7), InlineData(0)]
    public static void TheAzimuthOfARatio_IsThatOfTheSourceAhead(double omniShare)
    {
        for (var azimuth = -80; azimuth <= 80; azimuth += 5)
        {
            var a = azimuth * Math.PI / 180;
            Assert.Equal(azimuth, SourceAzimuth.FromRatio(Math.Sin(a) / (omniShare + ((1 - omniShare) * Math.Cos(a))), omniShare), 1e-9);
        }
    }

    [Theory]
    [InlineData(0), InlineData(35), InlineData(-60), InlineData(80)]
    public static void ASourceThatStands_IsFoundWhereItStands_InEveryBandAndColumn(double azimuth)
    {
        var trail = Listen((_, _) => azimuth, seconds: 4, diffuse: 0);
        Assert.Equal(50, trail.Columns);
        foreach (var band in (DirectionBand[])[trail.Whole, .. trail.Bands])
        {
            Assert.All(band.AzimuthDegrees, a => Assert.Equal(azimuth, a, 0.05));
            Assert.All(band.UncertaintyDegrees, u => Assert.InRange(u, 0, 0.5));
        }
    }

    // A boat that passes draws a line from left to right.
    [Fact]
    public static void ASourceThatPasses_DrawsALine()
    {
        var trail = Listen((t, _) => 60 - (30 * t), seconds: 4, diffuse: 0);
        for (var column = 2; column < trail.Columns - 2; column++)
            Assert.Equal(60 - (30 * 4 * (column + 0.5) / trail.Columns), trail.Whole.AzimuthDegrees[column], 1.5);
    }

    // A diffuse field has no direction of its own: mid and side are unrelated (REFERENCES E).
    [Fact]
    public static void ADiffuseField_HasNoDirection_AndUnderItASourceIsWithinItsUncertainty()
    {
        var field = Listen((_, _) => 0, seconds: 20, diffuse: 1, source: 0);
        Assert.True(field.Whole.AzimuthDegrees.Count(float.IsNaN) >= 48);
        Assert.All(field.Whole.DirectShare, s => Assert.InRange(s, 0, 0.35));

        var under = Listen((_, _) => 40, seconds: 20, diffuse: 0.2);
        var off = under.Whole.AzimuthDegrees.Zip(under.Whole.UncertaintyDegrees, (a, u) => Math.Abs(a - 40) / u).Where(float.IsFinite).ToList();
        Assert.Equal(50, off.Count);

        // Two in three within one standard deviation, nearly all within three.
        Assert.InRange(off.Count(x => x < 1), 25, 45);
        Assert.True(off.Count(x => x < 3) >= 49);
    }

    [Fact]
    public static void SilenceAndShortness_HaveNoDirection()
    {
        var meter = new DirectionMeter(Rate, Rate, 50);
        meter.Add(new float[Rate], new float[Rate]);
        var silent = meter.Complete();
        Assert.All(silent.Whole.AzimuthDegrees, a => Assert.True(float.IsNaN(a)));
        Assert.All(silent.Whole.LevelDecibelsFullScale, l => Assert.Equal(float.NegativeInfinity, l));
        Assert.Empty(new DirectionMeter(0, Rate, 50).Complete().Whole.AzimuthDegrees);
        var one = new DirectionMeter(10, Rate, 50);
        one.Add(new float[10], new float[10]);
        Assert.True(float.IsNaN(Assert.Single(one.Complete().Whole.AzimuthDegrees)));
    }

    [Fact]
    public static void HoweverTheStreamIsCut_TheTrailIsTheSame()
    {
        var (mid, side) = Signal((t, _) => 60 - (30 * t), 2, 0.1, 1);
        DirectionTrail Cut(int block)
        {
            var meter = new DirectionMeter(mid.Length, Rate, 40);
            for (var n = 0; n < mid.Length; n += block)
                meter.Add(mid.AsSpan(n, Math.Min(block, mid.Length - n)), side.AsSpan(n, Math.Min(block, mid.Length - n)));
            return meter.Complete();
        }

        var whole = Cut(mid.Length).Whole.AzimuthDegrees;
        Assert.Equal(whole, Cut(1).Whole.AzimuthDegrees);
        Assert.Equal(whole, Cut(4097).Whole.AzimuthDegrees);
    }

    // A sine of full scale in the middle band has a mean power of −3.01 dBFS.
    [Fact]
    public static void Level_IsTheMeanPowerOfTheMidInTheBand()
    {
        var mid = Enumerable.Range(0, Rate).Select(n => (float)Math.Sin(2 * Math.PI * 1500 * n / Rate)).ToArray();
        var meter = new DirectionMeter(Rate, Rate, 10);
        meter.Add(mid, new float[Rate]);
        Assert.All(meter.Complete().Bands[1].LevelDecibelsFullScale, l => Assert.Equal(-3.01, l, 0.05));
    }

    private static DirectionTrail Listen(Func<double, int, double> azimuth, double seconds, double diffuse, double source = 1)
    {
        var (mid, side) = Signal(azimuth, seconds, diffuse, source);
        var meter = new DirectionMeter(mid.Length, Rate, 50);
        meter.Add(mid, side);
        return meter.Complete();
    }

    // A noise from an azimuth before a cardioid and a figure-8, over a diffuse field with powers 1/3 and 1/3.
    private static (float[] Mid, float[] Side) Signal(Func<double, int, double> azimuth, double seconds, double diffuse, double source)
    {
        var random = new Random(5);
        double Noise() => random.NextDouble() - random.NextDouble();
        var count = (int)(seconds * Rate);
        var (mid, side) = (new float[count], new float[count]);
        for (var n = 0; n < count; n++)
        {
            var a = azimuth((double)n / Rate, n) * Math.PI / 180;
            var sound = 0.2 * source * Noise();
            mid[n] = (float)((sound * (0.5 + (0.5 * Math.Cos(a)))) + (0.2 * diffuse / Math.Sqrt(3) * Noise()));
            side[n] = (float)((sound * Math.Sin(a)) + (0.2 * diffuse / Math.Sqrt(3) * Noise()));
        }

        return (mid, side);
    }
}

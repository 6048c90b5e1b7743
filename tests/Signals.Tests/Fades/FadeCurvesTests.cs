using Athwart.Signals.Fades;
using CsCheck;

namespace Athwart.Signals.Tests.Fades;

public sealed class FadeCurvesTests
{
    private static readonly Gen<(long Frame, long Length)> Places = Gen.Long[1, 1_000_000].SelectMany(length => Gen.Long[0, length - 1].Select(frame => (frame, length)));

    [Theory]
    [InlineData(FadeCurve.SineSquared)]
    [InlineData(FadeCurve.Linear)]
    public void AFadeInAndAFadeOut_AddUpToOne(FadeCurve curve) => Places.Sample(place =>
        Assert.Equal(1, FadeCurves.Gain(curve, place.Frame, place.Length) + FadeCurves.Gain(curve, place.Length - 1 - place.Frame, place.Length), 1e-12));

    [Fact]
    public void TheSquaresOfConstantPower_AddUpToOne() => Places.Sample(place =>
    {
        var (rising, falling) = (FadeCurves.Gain(FadeCurve.ConstantPower, place.Frame, place.Length), FadeCurves.Gain(FadeCurve.ConstantPower, place.Length - 1 - place.Frame, place.Length));
        Assert.Equal(1, (rising * rising) + (falling * falling), 1e-12);
    });

    [Fact]
    public void TheExponentialCurve_IsThePowerOfAThousand() => Places.Sample(place =>
        Assert.Equal((Math.Pow(1000, (place.Frame + 0.5) / place.Length) - 1) / 999, FadeCurves.Gain(FadeCurve.Exponential, place.Frame, place.Length), 1e-12));

    [Theory]
    [InlineData(FadeCurve.SineSquared)]
    [InlineData(FadeCurve.Linear)]
    [InlineData(FadeCurve.ConstantPower)]
    [InlineData(FadeCurve.Exponential)]
    public void EveryCurve_RisesFromNothingToAll(FadeCurve curve)
    {
        var gains = Enumerable.Range(0, 4800).Select(n => FadeCurves.Gain(curve, n, 4800)).ToArray();
        Assert.All(gains.Zip(gains.Skip(1)), pair => Assert.True(pair.Second > pair.First));
        Assert.InRange(gains[0], 0, 0.001);
        Assert.InRange(gains[^1], 0.999, 1);
    }
}

using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Tests;

public sealed class NumbersTests
{
    [Theory]
    [InlineData(7.0 / 3, 4)]
    [InlineData(1, 50)]
    [InlineData(5.0 / 3, 1)]
    public void ASlopeLadder_FollowsItsPowerLawTwoOctavesAboveTheCorner(double exponent, double corner)
    {
        var chain = new FilterChain(SlopeLadder.Sections(exponent, corner, 48000));
        var at200 = 20 * Math.Log10(chain.AmplitudeRatioAt(200, 48000));

        foreach (var hertz in new[] { 260.0, 500, 1000, 2000, 4000 })
            Assert.Equal(-10 * exponent * Math.Log10(hertz / 200), (20 * Math.Log10(chain.AmplitudeRatioAt(hertz, 48000))) - at200, 0.35);
    }

    [Fact]
    public void WhitePowerGain_IsTheEnergyOfTheImpulseResponse()
    {
        // Parseval: the mean of the squared response is the sum of the squared impulse response.
        FilterChain Chain() => new([FilterDesigns.High2(100, 48000), .. FilterDesigns.Low4(5000, 48000)]);
        var chain = Chain();
        var energy = 0.0;
        for (var i = 0; i < 48000; i++)
            energy += Math.Pow(chain.Next(i == 0 ? 1 : 0), 2);

        Assert.Equal(1, Chain().WhitePowerGain(48000) / energy, 1e-4);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.3)]
    [InlineData(0.42)]
    public void AFractionalDelay_IsASineAtTheNewPlace(double partOfRate)
    {
        var signal = Enumerable.Range(0, 400).Select(i => Math.Sin(2 * Math.PI * partOfRate * i)).ToArray();
        for (var place = 150.0; place < 250; place += 0.3217)
            Assert.Equal(Math.Sin(2 * Math.PI * partOfRate * place), FractionalDelay.At(signal, place), 1e-4);
    }

    [Fact]
    public void Normal_HasTheMomentsOfTheNormalDistribution()
    {
        var chance = new Chance(11);
        var values = Enumerable.Range(0, 400000).Select(_ => chance.Normal()).ToArray();

        Assert.Equal(0, values.Average(), 0.008);
        Assert.Equal(1, values.Average(x => x * x), 0.012);
        Assert.Equal(3, values.Average(x => x * x * x * x), 0.08);
    }
}

using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Athwart.Jobs.Demo;
using Athwart.Jobs.Demo.Takes;

namespace Athwart.Jobs.Tests.Demo;

/// <summary>The tools the demo card is made with: their sums against closed forms.</summary>
public sealed class DemoSynthesisTests
{
    private static readonly Lazy<DemoScene> Boat = new(() => BoatPass.Build(3));

    [Fact]
    public void Sine_AgreesWithThePlatformTo1e11_OverManyTurns()
    {
        for (var i = -4000; i <= 4000; i++)
        {
            var turns = i / 1237.0;
            Assert.Equal(Math.Sin(2 * Math.PI * turns), DemoMath.Sine(turns), 1e-11);
            Assert.Equal(Math.Cos(2 * Math.PI * turns), DemoMath.Cosine(turns), 1e-11);
        }
    }

    [Fact]
    public void Exponential_AgreesWithThePlatformTo1e13Relative()
    {
        for (var x = -60.0; x <= 60; x += 0.37)
            Assert.Equal(1, DemoMath.Exponential(x) / Math.Exp(x), 1e-13);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(30)]
    [InlineData(-45)]
    [InlineData(70)]
    [InlineData(-120)]
    public void ASoundPutAtAnAzimuth_IsRecoveredFromMidAndSide(double azimuth)
    {
        var stage = new SoundStage(48000, 0.1, 1);
        var sound = stage.Sound(0.1);
        Strike.Puff(sound, 0, stage.Rate, 1, 900, 1, 0.05, stage.Random);
        stage.Place(sound, 0, Direction.At(azimuth));
        Assert.Equal(azimuth, Azimuth(stage, 0, stage.Length), 1e-6);
    }

    // Diffuse power of A + B·cos θ is A² + B²/3 (elementary, no source): cardioid and figure-8 both 1/3, product 0.
    [Fact]
    public void TheDiffuseField_IsAsStrongInTheSideAsInTheMid_AndUnrelated()
    {
        var stage = new SoundStage(48000, 8, 5);
        stage.AddDiffuse(0.1, 0.4);
        var (mid, side, both) = Energies(stage, 0, stage.Length);
        Assert.Equal(0, 10 * Math.Log10(side / mid), 0.3);
        Assert.InRange(both / Math.Sqrt(mid * side), -0.03, 0.03);
        Assert.Equal(-20, 10 * Math.Log10(mid / stage.Length), 0.4);
    }

    [Fact]
    public void PinkNoise_FallsBy3DecibelsAnOctave()
    {
        var noise = new SlopedNoise(48000, 0.5, new DemoRandom(3));
        double[] centres = [250, 500, 1000, 2000, 4000];
        var filters = Array.ConvertAll(centres, f => new StateVariableFilter(48000, f, 3));
        var power = new double[centres.Length];
        for (var i = 0; i < 480000; i++)
        {
            var x = noise.Next();
            for (var k = 0; k < filters.Length; k++)
                power[k] += filters[k].Step(x) * filters[k].Band;
        }

        // Bands of equal relative width hold equal power in pink noise; the ladder of low-passes ripples by less than a decibel.
        for (var k = 1; k < power.Length; k++)
            Assert.Equal(0, 10 * Math.Log10(power[k] / power[k - 1]), 1.0);
    }

    [Fact]
    public void TheSurroundings_DieBy60DecibelsInTheTimeAsked()
    {
        var stage = new SoundStage(48000, 1.5, 1);
        stage.Send[0] = 1;
        new Surroundings(48000, 1, 1e6, 1).AddTo(stage, 1);
        var early = Energies(stage, 4800, 9600);
        var late = Energies(stage, 4800 + 24000, 9600 + 24000);
        Assert.Equal(-30, 10 * Math.Log10(late.Mid / early.Mid), 4.0);
        Assert.Equal(0, 10 * Math.Log10(early.Side / early.Mid), 2.0);
    }

    [Fact]
    public void TheBoat_MovesFromLeftToRight()
    {
        var stage = Boat.Value.Stage;
        // 4 m in front, from 70 degrees left to 70 degrees right in 22 s; wash and walls pull the estimate towards the middle.
        double[] seconds = [1.5, 3.5, 6, 9.7, 12.1, 15.1];
        for (var i = 0; i < seconds.Length; i++)
        {
            var truth = Math.Atan2(4 * Math.Tan(70 * Math.PI / 180) * (1 - (2 * seconds[i] / 22)), 4) * 180 / Math.PI;
            Assert.InRange(Azimuth(stage, stage.Frame(seconds[i] - 0.4), stage.Frame(seconds[i] + 0.4)), truth - 12, truth + 12);
        }
    }

    [Fact]
    public void TheEngine_FiresTenTimesASecond()
    {
        var stage = Boat.Value.Stage;
        // Energy in steps of 10 ms over four seconds, correlated with itself one firing (10 steps) and half a firing later.
        var steps = Enumerable.Range(0, 400).Select(n => Energies(stage, stage.Frame(9) + (n * 480), stage.Frame(9) + ((n + 1) * 480)).Mid).ToArray();
        var mean = steps.Average();
        double Likeness(int lag) => Enumerable.Range(0, 400 - lag).Sum(n => (steps[n] - mean) * (steps[n + lag] - mean));
        Assert.True(Likeness(10) > 0.3 * Likeness(0));
        Assert.True(Likeness(5) < 0);
    }

    [Fact]
    public void TheSteps_CrossFromRightToLeft_EachWhereItsNoteSays()
    {
        var scene = Footsteps.Build(5);
        Assert.InRange(scene.Events.Count, 13, 15);
        foreach (var step in scene.Events)
        {
            var from = (int)step.Range.From.Value;
            Assert.Equal(step.From.Value, Azimuth(scene.Stage, from, from + 9600), 4.0);
        }

        Assert.True(scene.Events[0].From.Value < -60 && scene.Events[^1].From.Value > 50);
    }

    [Fact]
    public void TheGateBoom_RunsIntoFullScaleInTheMidOnly()
    {
        var scene = LockGates.Build(1);
        var fault = Assert.Single(scene.Faults);
        Assert.Equal("full-scale-run", fault.Kind);
        Assert.InRange(fault.Size, 4, 960);
        Assert.Equal(1, scene.Stage.Mid.Max(Math.Abs));
        Assert.True(scene.Stage.Side.Max(Math.Abs) < 0.5);
        Assert.InRange(fault.Range!.Value.From.Value, scene.Stage.Frame(8.6), scene.Stage.Frame(8.8));
    }

    [Fact]
    public void TheSameSeed_GivesTheSameSamples_AndAnotherSeedOthers()
    {
        var once = Digest(DeckThump.Build(7).Stage);
        Assert.Equal(once, Digest(DeckThump.Build(7).Stage));
        Assert.False(string.Equals(once, Digest(DeckThump.Build(8).Stage), StringComparison.Ordinal));
    }

    internal static string Digest(SoundStage stage)
    {
        var data = MemoryMarshal.AsBytes<double>(stage.Mid).ToArray();
        return Convert.ToHexStringLower(SHA256.HashData([.. data, .. MemoryMarshal.AsBytes<double>(stage.Side)]));
    }

    /// <summary>side/mid = 2·tan(θ/2) for a cardioid mid, so θ = 2·atan2(⟨m·s⟩, 2⟨m²⟩).</summary>
    private static double Azimuth(SoundStage stage, int from, int to)
    {
        var (mid, _, both) = Energies(stage, from, to);
        return 2 * Math.Atan2(both, 2 * mid) * 180 / Math.PI;
    }

    private static (double Mid, double Side, double Both) Energies(SoundStage stage, int from, int to)
    {
        var (mid, side, both) = (0.0, 0.0, 0.0);
        for (var i = from; i < to; i++)
        {
            mid += stage.Mid[i] * stage.Mid[i];
            side += stage.Side[i] * stage.Side[i];
            both += stage.Mid[i] * stage.Side[i];
        }

        return (mid, side, both);
    }
}

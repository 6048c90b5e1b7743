using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Tests.Support;

namespace Athwart.Scenes.Tests;

public sealed class ElectronicsTests
{
    private static readonly Scene Loud = new()
    {
        LengthSeconds = 0.5,
        Rig = QuietRig.Rig with { Word = SampleWord.Bits24 },
        Sources = [new() { Signal = new ToneComplex([997]), Trajectory = new FixedPlace(new(1, 1, 0)), LevelDecibels = 110 }],
    };

    [Theory]
    [InlineData(SampleWord.Bits16, 32767.0 / 32768)]
    [InlineData(SampleWord.Bits24, 8388607.0 / 8388608)]
    public void Integers_StopAtFullScale_AndTheTruthNamesEveryFrame(SampleWord word, double top)
    {
        var take = SceneRenderer.Render(Loud with { Rig = Loud.Rig with { Word = word }, Faults = [new Overload(6) { Role = ChannelRole.Mid }] });
        var mid = take[ChannelRole.Mid];
        var item = Assert.Single(take.Truth.Of(FaultKinds.FullScale), item => item.Role == ChannelRole.Mid);

        Assert.Equal(top, mid.Max());
        Assert.Equal(-1, mid.Min());
        Assert.Equal(6, item.Size, 0.001);
        var named = item.Places.SelectMany(run => Enumerable.Range((int)run.From.Value, (int)run.Length.Value)).ToHashSet();
        Assert.Equal(Enumerable.Range(0, take.Frames).Where(i => mid[i] >= top || mid[i] == -1).ToHashSet(), named);
        Assert.InRange(named.Count, 1000, take.Frames);
    }

    [Fact]
    public void Floats_GoBeyondFullScale_AndAreToldApart()
    {
        var take = SceneRenderer.Render(Loud with { Rig = Loud.Rig with { Word = SampleWord.Floating }, Faults = [new Overload(3)] });

        Assert.Equal(3, Measure.Decibels(take[ChannelRole.Mid].Max()), 0.01);
        Assert.Empty(take.Truth.Of(FaultKinds.FullScale));
        Assert.Equal(3, take.Truth.Of(FaultKinds.FloatOvers).Max(item => item.Size), 0.001);
    }

    [Fact]
    public void AClippedInput_LeavesFlatTopsBelowFullScale()
    {
        var take = SceneRenderer.Render(Loud with { Faults = [new ClippedInput(-8, 4) { Role = ChannelRole.Side }] });
        var side = take[ChannelRole.Side];
        var item = Assert.Single(take.Truth.Of(FaultKinds.FlatTops));

        Assert.Equal(-8, Measure.Decibels(side.Max()), 1e-4);
        Assert.Equal(4, item.Size, 0.01);
        Assert.Equal(-8, item.Detail("limit"), 1e-9);
        Assert.Equal(item.Detail("samples beyond"), side.Count(x => Math.Abs(x) >= side.Max()), 0);
    }

    [Fact]
    public void TheMicrophonesOwnLimit_ClipsAtItsPressure()
    {
        var channel = QuietRig.Channel with { MaximumDecibels = 100 };
        var hard = SceneRenderer.Render(Loud with { Rig = Loud.Rig with { Mid = channel } });
        var soft = SceneRenderer.Render(Loud with { Rig = Loud.Rig with { Mid = channel with { ClipsSoftly = true } } });

        Assert.Equal(Levels.Pascal(100) * 0.4, hard[ChannelRole.Mid].Max(), 1e-6);
        Assert.InRange(soft[ChannelRole.Mid].Max(), 0.5 * Levels.Pascal(100) * 0.4, Levels.Pascal(100) * 0.4);
        Assert.Equal(100 - 93.9794 + Measure.Decibels(0.4), hard.Truth.Of(FaultKinds.FlatTops).First(item => item.Role == ChannelRole.Mid).Detail("limit"), 1e-4);
    }

    [Theory]
    [InlineData(48000)]
    [InlineData(96000)]
    public void EquivalentNoise_IsThatPressureInDecibelsA(int rate)
    {
        // White noise: A-weighted power computed with the weights of IEC 61672-1:2013 Table 3 in third octaves, 10 Hz to 20 kHz.
        var rig = QuietRig.Rig with { Mid = QuietRig.Channel with { EquivalentNoiseDecibels = 20 } };
        var take = SceneRenderer.Render(new() { SampleRateHertz = rate, Rig = rig });
        double[] weights = [-70.4, -63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3];

        var weighted = 0.0;
        for (var k = 0; k < weights.Length; k++)
        {
            var centre = 1000 * Math.Pow(10, (k - 20) / 10.0);
            weighted += Math.Pow(10, weights[k] / 10) * centre * (Math.Pow(10, 0.05) - Math.Pow(10, -0.05)) / (rate / 2.0);
        }

        var pascal = Math.Sqrt(Measure.Power(take[ChannelRole.Mid]) * weighted) / 0.4;
        Assert.Equal(20, Measure.Decibels(pascal / 2e-5), 0.15);
    }

    [Fact]
    public void TheLowCorner_Is3DecibelsDown()
    {
        var channel = QuietRig.Channel with { LowCornerHertz = 80, LowCornerOrder = 2 };
        var scene = Loud with { LengthSeconds = 2, Rig = QuietRig.Rig with { Mid = channel }, Sources = [new() { Signal = new ToneComplex([80, 2000]), Trajectory = new FixedPlace(new(1, 0, 0)) }] };
        var mid = SceneRenderer.Render(scene)[ChannelRole.Mid];

        Assert.Equal(-3.01, Measure.Decibels(Measure.Sine(mid, 80, 48000).Amplitude / Measure.Sine(mid, 2000, 48000).Amplitude), 0.02);
    }

    [Fact]
    public void Beaming_TakesTheHighsOffTheAxisAndNoneOnIt()
    {
        var channel = QuietRig.Channel with { BeamHertz = 4000 };
        Scene At(double azimuth) => Loud with { Rig = QuietRig.Rig with { MidOmniShare = 1, Mid = channel }, Sources = [new() { Signal = new ToneComplex([500, 4000]), Trajectory = new FixedPlace(Place.Polar(azimuth, 2)) }] };
        var front = SceneRenderer.Render(At(0))[ChannelRole.Mid];
        var rear = SceneRenderer.Render(At(180))[ChannelRole.Mid];

        Assert.Equal(0, Tilt(front), 0.001);
        Assert.InRange(Tilt(rear), -3.6, -2.2);

        static double Tilt(float[] x) => Measure.Decibels(Measure.Sine(x, 4000, 48000).Amplitude / Measure.Sine(x, 500, 48000).Amplitude);
    }
}

using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Tests.Support;

namespace Athwart.Scenes.Tests;

/// <summary>Each fault is measured as the difference against the same scene without it.</summary>
public sealed class FaultTests
{
    private const double Rate = 48000;

    private static readonly Scene Clean = new()
    {
        LengthSeconds = 2,
        Rig = QuietRig.Rig,
        Sources = [new() { Signal = new NoiseBand(80, 12000), Trajectory = new FixedPlace(new(2, 1, 0)), LevelDecibels = 80 }],
    };

    [Fact]
    public void SwappedInvertedAndDecoded_AreWhatTheySay()
    {
        var (mid, side) = Planes();
        var swapped = With(new SwappedRoles());
        var inverted = With(new InvertedSide());
        var decoded = With(new AlreadyDecoded(3, 0));

        Assert.Equal(side, swapped.Channels[0]);
        Assert.Equal(mid, swapped.Channels[1]);
        Assert.Equal(side.Select(x => -x), inverted.Channels[1]);
        Assert.Equal(mid, inverted.Channels[0]);
        var g = Math.Pow(10, 3 / 20.0);
        Assert.All(Enumerable.Range(0, 1000), i => Assert.Equal(mid[i] + (g * side[i]), decoded.Channels[0][i], 1e-6));
        Assert.All(Enumerable.Range(0, 1000), i => Assert.Equal(mid[i] - (g * side[i]), decoded.Channels[1][i], 1e-6));
    }

    [Theory]
    [InlineData(0, "dual-mono")]
    [InlineData(-7, "scaled-copy")]
    public void ACopy_IsTheMidAtItsLevel(double decibels, string kind)
    {
        var take = With(new CopiedMid(decibels));

        Assert.Equal(kind, Assert.Single(take.Truth.Items).Kind);
        Assert.Equal(decibels, Measure.Decibels(Math.Sqrt(Measure.Power(take.Channels[1]) / Measure.Power(take.Channels[0]))), 1e-4);
        Assert.Equal(1, Measure.Correlation(take.Channels[0], take.Channels[1]), 1e-9);
    }

    [Theory]
    [InlineData(-9.5, "role-weak")]
    [InlineData(4, "role-strong")]
    public void AGainFault_ChangesItsStretchAndNothingElse(double decibels, string kind)
    {
        var (_, side) = Planes();
        var take = With(new GainFault(decibels) { Role = ChannelRole.Side, FromSeconds = 0.5, ToSeconds = 1.25 });
        var item = Assert.Single(take.Truth.Of(kind));

        Assert.Equal(FrameRange.FromFrames(24000, 60000), item.Range);
        Assert.Equal(decibels, Measure.Decibels(Math.Sqrt(Measure.Power(take.Channels[1].AsSpan(24000, 36000)) / Measure.Power(side.AsSpan(24000, 36000)))), 1e-4);
        Assert.Equal(side.AsSpan(0, 24000), take.Channels[1].AsSpan(0, 24000));
        Assert.Equal(side.AsSpan(60000), take.Channels[1].AsSpan(60000));
    }

    [Fact]
    public void AWholeGainFault_IsInTheRecordedSideGain()
    {
        var take = With(new GainFault(-6) { Role = ChannelRole.Side });

        Assert.Equal((0.0, -6.0), (take.Truth.SideGainDecibels, Math.Round(take.Truth.RecordedSideGainDecibels, 9)));
    }

    [Fact]
    public void ADeadRole_IsSilent()
    {
        var take = With(new GainFault(double.NegativeInfinity) { Role = ChannelRole.Mid });

        Assert.Equal(FaultKinds.RoleDead, Assert.Single(take.Truth.Items).Kind);
        Assert.Equal(0, Measure.Power(take.Channels[0]));
    }

    [Fact]
    public void Wind_FallsAsF73_AndIsNotSharedByTheCapsules()
    {
        // Kolmogorov's inertial range: pressure power ∝ f^(−7/3), −23.3 dB a decade; see REFERENCES on wind.
        var take = SceneRenderer.Render(new() { LengthSeconds = 24, Rig = QuietRig.Rig, Faults = [new Wind(90, 4, 0, 0)] });
        var spectrum = Spectrum.Of(take.Channels[0], Rate);

        var slope = Measure.PowerDecibels(spectrum.Mean(300, 600) / spectrum.Mean(30, 60));
        Assert.Equal(-23.33, slope, 0.7);
        Assert.InRange(Math.Abs(Spectrum.Coherence(take.Channels[0], take.Channels[1], Rate, 20, 300)), 0, 0.05);
        Assert.Equal(90, Measure.Decibels(Math.Sqrt(Measure.Power(take.Channels[0])) / 0.4 / 2e-5), 0.5);
    }

    [Fact]
    public void Wind_HasItsLevelInItsStretch()
    {
        var added = Added(new Wind(80, 4, 5, 6) { FromSeconds = 0.5, ToSeconds = 1.5 });

        Assert.Equal(80, PressureLevel(added.Mid.AsSpan(24000, 48000)), 0.01);
        Assert.Equal(86, PressureLevel(added.Side.AsSpan(24000, 48000)), 0.01);
        Assert.Equal(0, Measure.Power(added.Mid.AsSpan(0, 24000)));
    }

    [Fact]
    public void Rumble_IsSharedAndHandlingHasItsPeak()
    {
        var rumble = Added(new Rumble(70));
        var thumps = Added(new Handling([0.4, 1.2], 95) { Role = ChannelRole.Mid });

        Assert.Equal(70, PressureLevel(rumble.Mid), 0.5);
        Assert.Equal(1, Measure.Correlation(rumble.Mid, rumble.Side), 1e-6);
        Assert.Equal(95, Measure.Decibels(thumps.Mid.Max(Math.Abs) / 0.4 / 2e-5), 0.01);
        Assert.Equal(0, Measure.Power(thumps.Side));
    }

    [Fact]
    public void Hum_HasItsFrequencyLevelAndHarmonics()
    {
        var hum = Added(new Hum(-50, 49.97, [0, -10, -20]) { Role = ChannelRole.Side });
        var first = Measure.Sine(hum.Side.AsSpan(0, 24000), 49.97, Rate).Phase;
        var later = Measure.Sine(hum.Side.AsSpan(48000, 24000), 49.97, Rate).Phase;

        // A frequency of 49.97 Hz turns 0.03 of a turn less than 50 in a second.
        Assert.Equal(0, Math.IEEERemainder((later - first) / (2 * Math.PI) + 0.03, 1), 0.002);
        Assert.Equal(-50, Measure.Decibels(Math.Sqrt(Measure.Power(hum.Side))), 0.01);
        Assert.Equal(-10, Measure.Decibels(Measure.Sine(hum.Side, 99.94, Rate).Amplitude / Measure.Sine(hum.Side, 49.97, Rate).Amplitude), 0.05);
        Assert.Equal(0, Measure.Power(hum.Mid));
    }

    [Fact]
    public void ADriftingHum_SwingsAsFarAsStated()
    {
        var scene = new Scene { SampleRateHertz = 8000, LengthSeconds = 34, Rig = QuietRig.Rig, Faults = [new Hum(-20, 50, [0], 0.1)] };
        var mid = SceneRenderer.Render(scene).Channels[0];
        var frequencies = Enumerable.Range(0, 33).Select(second => 50 + (Math.IEEERemainder(
            Measure.Sine(mid.AsSpan((second * 8000) + 4000, 4000), 50, 8000).Phase - Measure.Sine(mid.AsSpan(second * 8000, 4000), 50, 8000).Phase, 2 * Math.PI) / (2 * Math.PI * 0.5))).ToArray();

        Assert.Equal(50.1, frequencies.Max(), 0.005);
        Assert.Equal(49.9, frequencies.Min(), 0.005);
    }

    [Fact]
    public void TonesAndHiss_HaveTheirLevels()
    {
        var tone = Added(new Tone(-60, 3000) { Role = ChannelRole.Mid });
        var hiss = Added(new Hiss(-55) { Role = ChannelRole.Side });
        var spur = With(new Tone(-70, 21500, 22500));

        Assert.Equal(-60 + 3.0103, Measure.Decibels(Measure.Sine(tone.Mid, 3000, Rate).Amplitude), 0.01);
        Assert.Equal(-55, Measure.Decibels(Math.Sqrt(Measure.Power(hiss.Side))), 0.05);
        Assert.Equal(FaultKinds.UltrasonicSpur, Assert.Single(spur.Truth.Items).Kind);
    }

    [Theory]
    [InlineData(0.37)]
    [InlineData(12.6)]
    [InlineData(-3.25)]
    public void ALateSide_IsLateByItsSamples(double samples)
    {
        var scene = Clean with { Sources = [new() { Signal = new ToneComplex([500]), Trajectory = new FixedPlace(new(2, 1, 0)) }] };
        var take = SceneRenderer.Render(scene with { Faults = [new LateSide(samples)] });

        Assert.Equal(samples, Measure.DelaySamples(take.Channels[0], take.Channels[1], 500, Rate), 0.001);
    }

    [Fact]
    public void AMissingLowEnd_Is3DecibelsDownAtItsCorner()
    {
        var scene = Clean with { Sources = [new() { Signal = new ToneComplex([150, 3000]), Trajectory = new FixedPlace(new(2, 1, 0)) }] };
        var take = SceneRenderer.Render(scene with { Faults = [new LowEndMissing(150)] });

        Assert.Equal(-3.01, Measure.Decibels(Measure.Sine(take.Channels[1], 150, Rate).Amplitude / Measure.Sine(take.Channels[1], 3000, Rate).Amplitude), 0.02);
    }

    [Fact]
    public void AnOffset_IsConstant()
    {
        var added = Added(new DcOffset(0.01) { Role = ChannelRole.Mid });

        Assert.All(added.Mid, x => Assert.Equal(0.01, x, 1e-6));
    }

    [Fact]
    public void ALowRateSource_HasNothingAboveHalfItsRate()
    {
        var scene = Clean with { SampleRateHertz = 96000, Sources = [new() { Signal = new NoiseBand(80, 40000), Trajectory = new FixedPlace(new(2, 1, 0)) }] };
        var take = SceneRenderer.Render(scene with { Faults = [new LowRateSource(44100)] });
        var spectrum = Spectrum.Of(take.Channels[0], 96000);

        Assert.InRange(Measure.PowerDecibels(spectrum.Mean(22100, 40000) / spectrum.Mean(5000, 15000)), -200, -90);
        Assert.InRange(Measure.PowerDecibels(spectrum.Mean(19000, 19900) / spectrum.Mean(5000, 15000)), -0.5, 0.5);
    }

    [Fact]
    public void ClicksAndDropouts_AreAtTheirFrames()
    {
        var (mid, side) = Planes();
        var take = With(new Clicks([777, 5000], 0.25) { Role = ChannelRole.Side }, new Dropouts([9000], 64) { Role = ChannelRole.Mid });

        Assert.Equal([777, 5000], Enumerable.Range(0, mid.Length).Where(i => side[i] != take.Channels[1][i]));
        Assert.Equal(0.25, Math.Abs(take.Channels[1][777] - side[777]), 1e-6);
        Assert.All(take.Channels[0][9000..9064], x => Assert.Equal(0, x));
        Assert.Equal(mid[9064], take.Channels[0][9064]);
        Assert.Equal(FrameRange.FromFrames(9000, 9064), Assert.Single(take.Truth.Of(FaultKinds.Dropouts)).Places[0]);
    }

    [Fact]
    public void Blocks_AreRepeatedAndMissing_AndTheTruthMovesWithThem()
    {
        var (mid, _) = Planes();
        var repeated = With(new RepeatedBlock(1000, 256));
        var pushed = With(new Clicks([5000], 0.1), new RepeatedBlock(1000, 256, Overwrites: false));
        var missing = With(new Clicks([5000], 0.1), new MissingBlock(1000, 256));

        Assert.Equal(mid[1000..1256], repeated.Channels[0][1256..1512]);
        Assert.Equal(mid[1512..], repeated.Channels[0][1512..]);
        Assert.Equal(96256, pushed.Frames);
        Assert.Equal(5256, Assert.Single(pushed.Truth.Of(FaultKinds.Clicks)).Places[0].From.Value);
        Assert.Equal(95744, missing.Frames);
        Assert.Equal(4744, Assert.Single(missing.Truth.Of(FaultKinds.Clicks)).Places[0].From.Value);
        Assert.Equal(mid[1256..1300], missing.Channels[0][1000..1044]);
    }

    [Fact]
    public void ALevelJump_StepsAtItsFrame()
    {
        var (mid, _) = Planes();
        var take = With(new LevelJump(48000, -8));

        Assert.Equal(mid[47999], take.Channels[0][47999]);
        Assert.Equal(-8, Measure.Decibels(take.Channels[0][48000] / mid[48000]), 1e-3);
    }

    [Fact]
    public void AnEarlyEnd_ShortensTakeAndTruth()
    {
        var take = With(new DcOffset(0.1), new EarlyEnd(1.5));

        Assert.Equal(72000, take.Frames);
        Assert.Equal(0.5, Assert.Single(take.Truth.Of(FaultKinds.EarlyEnd)).Size, 1e-9);
        Assert.Equal(72000, Assert.Single(take.Truth.Of(FaultKinds.DcOffset)).Range.To.Value);
    }

    [Fact]
    public void ALongSilence_SilencesTheSourcesOnly()
    {
        var take = With(new LongSilence { FromSeconds = 0.5, ToSeconds = 1.5 }, new DcOffset(0.01));

        Assert.All(take.Channels[0][26000..70000], x => Assert.Equal(0.01, x, 1e-6));
        Assert.Equal(1, Assert.Single(take.Truth.Of(FaultKinds.LongSilence)).Size, 1e-9);
    }

    [Fact]
    public void ASlate_SpeaksInItsStretch()
    {
        var added = Added(new Slate(70) { FromSeconds = 0.2, ToSeconds = 1 });

        Assert.Equal(0, Measure.Power(added.Mid.AsSpan(0, 9000)), 1e-12);
        Assert.Equal(0, Measure.Power(added.Side.AsSpan(50000)), 1e-12);
        Assert.True(Measure.Power(added.Side.AsSpan(10000, 38000)) > 1e-8);
    }

    [Fact]
    public void ADecodedOverload_LeavesMidAndSideBelowFullScale()
    {
        var take = With(new DecodedOverload(1));
        var (mid, side) = (take.Channels[0], take.Channels[1]);

        Assert.InRange(mid.Max(Math.Abs), 0, 1);
        Assert.InRange(side.Max(Math.Abs), 0, 1);
        Assert.Equal(1, Measure.Decibels(mid.Zip(side).Max(pair => Math.Max(Math.Abs(pair.First + pair.Second), Math.Abs(pair.First - pair.Second)))), 0.001);
        Assert.Equal(1, Assert.Single(take.Truth.Items).Size, 0.001);
    }

    private static readonly RenderedScene Untouched = SceneRenderer.Render(Clean);

    private static RenderedScene With(params Fault[] faults) => SceneRenderer.Render(Clean with { Faults = faults });

    private static (float[] Mid, float[] Side) Planes() => (Untouched.Channels[0], Untouched.Channels[1]);

    private static (float[] Mid, float[] Side) Added(Fault fault)
    {
        var (mid, side) = Planes();
        var take = With(fault);
        return ([.. take.Channels[0].Zip(mid, (a, b) => a - b)], [.. take.Channels[1].Zip(side, (a, b) => a - b)]);
    }

    private static double PressureLevel(ReadOnlySpan<float> x) => Measure.Decibels(Math.Sqrt(Measure.Power(x)) / 0.4 / Levels.ReferencePascal);
}

using Athwart.Quantities;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;
using Athwart.Scenes.Tests.Support;

namespace Athwart.Scenes.Tests;

public sealed class SourceGeometryTests
{
    private const double Rate = 48000;

    [Theory]
    [InlineData(0.5, 30, 0, 0)]
    [InlineData(0.5, -75, 0, 0)]
    [InlineData(0.25, 60, 0, 6)]
    [InlineData(1, 90, 0, -3)]
    [InlineData(0.366, 150, 0, 2)]
    [InlineData(0.7, -120, 25, 0)]
    public void ASourceAtAnAzimuth_GivesSideOverMidAsTheClosedForm(double omniShare, double azimuth, double elevation, double sideGain)
    {
        // Closed form: side/mid = g·sin a·cos e/(A + B·cos a·cos e); e is the elevation.
        var (a, e) = (azimuth * Math.PI / 180, elevation * Math.PI / 180);
        var expected = Math.Pow(10, sideGain / 20) * Math.Sin(a) * Math.Cos(e) / (omniShare + ((1 - omniShare) * Math.Cos(a) * Math.Cos(e)));

        var take = SceneRenderer.Render(Alone(new FixedPlace(Place.Polar(azimuth, 3, elevation)), new NoiseBand()) with
        {
            Rig = QuietRig.Rig with { MidOmniShare = omniShare, Side = QuietRig.Channel with { GainDecibels = 40 + sideGain } },
        });

        var ratio = Measure.Product(take[ChannelRole.Mid], take[ChannelRole.Side]) / Measure.Power(take[ChannelRole.Mid]);
        Assert.Equal(Math.Sign(expected), Math.Sign(ratio));
        Assert.Equal(Measure.Decibels(expected), Measure.Decibels(ratio), 0.01);
    }

    [Fact]
    public void TwiceTheDistance_Is6_02DecibelsDown()
    {
        var near = SceneRenderer.Render(Alone(new FixedPlace(new(2, 0, 0)), Sine(1000)));
        var far = SceneRenderer.Render(Alone(new FixedPlace(new(4, 0, 0)), Sine(1000)));

        var ratio = Measure.Sine(far[ChannelRole.Mid], 1000, Rate).Amplitude / Measure.Sine(near[ChannelRole.Mid], 1000, Rate).Amplitude;
        Assert.Equal(-6.0206, Measure.Decibels(ratio), 0.001);
    }

    [Fact]
    public void LevelAtOneMetre_WithSensitivityAndGain_GivesTheSampleValue()
    {
        // 94 dB re 20 µPa is 1.00237 Pa; 20 mV/Pa and 40 dB make 2 V of it, against 5 V for full scale.
        var take = SceneRenderer.Render(Alone(new FixedPlace(new(1, 0, 0)), new ToneComplex([1000])) with { Sources = [new() { Signal = new ToneComplex([1000]), Trajectory = new FixedPlace(new(1, 0, 0)), LevelDecibels = 94 }] });

        Assert.Equal(1.0023745 * Math.Sqrt(2) * 2 / 5, Measure.Sine(take[ChannelRole.Mid], 1000, Rate).Amplitude, 1e-4);
    }

    [Theory]
    [InlineData(0.1, 0)]
    [InlineData(0.037, 60)]
    [InlineData(-0.05, 110)]
    [InlineData(0.08, 180)]
    public void ASpacing_DelaysTheSideByTheGeometry(double forward, double azimuth)
    {
        var place = Place.Polar(azimuth, 5);
        var expected = ((place - new Place(forward, 0, 0)).Length - place.Length) / 343.2 * Rate;
        var take = SceneRenderer.Render(Alone(new FixedPlace(place), Sine(1000)) with
        {
            Rig = QuietRig.Rig with { SideForwardMetres = forward, SideAzimuthDegrees = azimuth, MidOmniShare = 1 },
        });

        Assert.Equal(expected, Measure.DelaySamples(take[ChannelRole.Mid], take[ChannelRole.Side], 1000, Rate), 0.01);
    }

    [Theory]
    [InlineData(3.0001)]
    [InlineData(7.35)]
    [InlineData(12.123)]
    public void ASound_IsHeardAsLateAsItIsFarAway(double metres)
    {
        // The truth is a band-limited pulse written down at the very places where it must be heard.
        static double Pulse(double t) => Math.Exp(-Math.Pow((t - 0.1) / 0.0002, 2)) * Math.Sin(2 * Math.PI * 3000 * (t - 0.1));
        var take = SceneRenderer.Render(Alone(new FixedPlace(new(metres, 0, 0)), new GivenSignal(Pulse)) with { LengthSeconds = 0.3 });

        var (worst, peak) = (0.0, 0.0);
        var scale = 2e-5 * Math.Pow(10, 74 / 20.0) * 0.4 / metres;
        for (var i = 0; i < take.Frames; i++)
        {
            var truth = Pulse((i / Rate) - (metres / 343.2)) * scale;
            worst = Math.Max(worst, Math.Abs(take[ChannelRole.Mid][i] - truth));
            peak = Math.Max(peak, Math.Abs(truth));
        }

        // 0.01 sample of 3 kHz is 0.0039 of the peak; the rendering is much closer.
        Assert.InRange(worst / peak, 0, 1e-4);
    }

    [Fact]
    public void AnApproachingSource_IsRaisedByDoppler()
    {
        // f' = f/(1 − v/c) for a source coming straight on.
        var take = SceneRenderer.Render(Alone(new StraightPath(new(60, 0, 0), new(-20, 0, 0)), Sine(1000)) with { LengthSeconds = 1 });
        var expected = 1000 / (1 - (20 / 343.2));
        var mid = take[ChannelRole.Mid].AsSpan();

        var first = Measure.Sine(mid[..8000], expected, Rate).Phase;
        var second = Measure.Sine(mid.Slice(24000, 8000), expected, Rate).Phase + (2 * Math.PI * expected * -24000 / Rate);
        var drift = Math.IEEERemainder(second - first, 2 * Math.PI) / (2 * Math.PI * 0.5);
        Assert.Equal(0, drift, 0.01);
    }

    [Fact]
    public void GroundAndWalls_SendTheMirroredSourceOnceEach()
    {
        var room = new BoxRoom(new(-4, -3, 0), new(5, 2, 2.5), [0, 0, 0, 0, 0, 0], 1);
        var source = new Place(2, 1, 1);

        var places = room.Images().Select(image => image.Of(source)).ToHashSet();

        Assert.Equivalent(new HashSet<Place>([source, new(-10, 1, 1), new(8, 1, 1), new(2, -7, 1), new(2, 3, 1), new(2, 1, -1), new(2, 1, 4)]), places, strict: true);
    }

    [Fact]
    public void Absorption_TakesItsPartOfThePower()
    {
        var image = new Ground(0.75).Images().Last();

        Assert.Equal(0.5, image.Gain, 1e-12);
        Assert.Equal(new Place(1, 2, -3), image.Of(new(1, 2, 3)));
    }

    [Fact]
    public void ARoomOfSecondOrder_HasTwentyFiveSources() =>
        Assert.Equal(25, new BoxRoom(new(0, 0, 0), new(5, 4, 3), [0.1, 0.1, 0.1, 0.1, 0.1, 0.1]).Images().Count());

    private static ToneComplex Sine(double hertz) => new([hertz]);

    private static Scene Alone(Trajectory trajectory, SourceSignal signal) => new()
    {
        LengthSeconds = 1,
        Rig = QuietRig.Rig,
        Sources = [new() { Signal = signal, Trajectory = trajectory }],
    };
}

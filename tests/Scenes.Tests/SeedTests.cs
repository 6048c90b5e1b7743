using Athwart.Quantities;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Scenes.Tests;

public sealed class SeedTests
{
    private static readonly Scene Busy = new()
    {
        LengthSeconds = 0.5,
        Sources =
        [
            new() { Signal = new Clap([0.1, 0.3]), Trajectory = new FixedPlace(new(2, 1, 1.5)), LevelDecibels = 100 },
            new() { Signal = new Footsteps([0.2]), Trajectory = new StraightPath(new(3, -2, 0), new(0, 4, 0)), LevelDecibels = 90 },
            new() { Signal = new Engine(), Trajectory = new FixedPlace(new(9, -3, 1)) },
            new() { Signal = new Voice(0, 0.5), Trajectory = new FixedPlace(new(2, -1, 1)) },
        ],
        Reflectors = new Ground(),
        Ambience = [new()],
        Faults = [new Wind(70), new Hum(-50)],
    };

    [Fact]
    public void TheSameSeed_GivesTheSameSamples()
    {
        var (first, second) = (SceneRenderer.Render(Busy), SceneRenderer.Render(Busy));

        Assert.Equal(first.Channels[0], second.Channels[0]);
        Assert.Equal(first.Channels[1], second.Channels[1]);
    }

    [Fact]
    public void AnotherSeed_GivesOtherSamples() =>
        Assert.NotEqual(SceneRenderer.Render(Busy).Channels[0], SceneRenderer.Render(Busy with { Seed = 2 }).Channels[0]);

    [Fact]
    public void AddingAFault_LeavesTheRestAsItWas()
    {
        var without = SceneRenderer.Render(Busy);
        var with = SceneRenderer.Render(Busy with { Faults = [.. Busy.Faults, new Clicks([1000], 0.2) { Role = ChannelRole.Mid }] });

        Assert.Equal(1, without.Channels[0].Zip(with.Channels[0]).Count(pair => pair.First != pair.Second));
    }

    [Fact]
    public void EverySignal_HasTheLevelItPromises()
    {
        var grid = new SignalGrid(48000, 0, 96000);
        Assert.Equal(1, Levels.Peak(new Clap([0.5, 1]).Render(grid, new(3))), 1e-9);
        Assert.Equal(1, Levels.Peak(new Footsteps([0.5, 1]).Render(grid, new(3))), 1e-9);
        Assert.Equal(1, Levels.Peak(new Click([0.5]).Render(grid, new(3))), 1e-9);
        Assert.Equal(1, Levels.Rms(new NoiseBand().Render(grid, new(3))), 1e-9);
        Assert.Equal(1, Levels.Rms(new Engine().Render(grid, new(3))), 1e-9);
        Assert.Equal(1, Levels.Rms(new Voice(0, 2).Render(grid, new(3))), 1e-9);
        Assert.Equal(Math.Sqrt(0.5), Levels.Rms(new Voice(0.5, 1.5).Render(grid, new(3))), 1e-9);
        Assert.Equal(1, Levels.Rms(new ToneComplex([100, 440]).Render(grid, new(3))), 1e-3);
    }

    [Fact]
    public void Arrivals_AreWhereTheClickIsHeard()
    {
        var scene = Busy with
        {
            Faults = [new MissingBlock(2000, 100)],
            Ambience = [],
            Reflectors = null,
            Sources = [new() { Signal = new Click([0.02, 0.2]), Trajectory = new FixedPlace(new(4, 3, 1.5)), LevelDecibels = 110 }],
        };
        var take = SceneRenderer.Render(scene);
        var arrivals = take.Truth.Sources[0].Arrivals;
        var mid = take[ChannelRole.Mid];

        Assert.Equal((0.02 + (5 / 343.2)) * 48000, arrivals[0].MidFrame, 1e-6);
        Assert.Equal(((0.2 + (5 / 343.2)) * 48000) - 100, arrivals[1].MidFrame, 1e-6);
        Assert.All(arrivals, arrival => Assert.Equal(Array.IndexOf(mid, mid.AsSpan((int)arrival.MidFrame - 50, 100).ToArray().Max(), (int)arrival.MidFrame - 50), arrival.MidFrame, 0.51));
        Assert.Equal(36.87, arrivals[0].AzimuthDegrees, 0.01);
    }
}

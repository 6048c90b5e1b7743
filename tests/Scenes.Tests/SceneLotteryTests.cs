using Athwart.Scenes.Faults;

namespace Athwart.Scenes.Tests;

public sealed class SceneLotteryTests
{
    [Fact]
    public void DrawnScenes_AreSoundAndHaveTheirHeadroom()
    {
        for (var seed = 1UL; seed <= 6; seed++)
        {
            var scene = SceneLottery.Draw(seed, 1);
            var take = SceneRenderer.Render(scene);
            var headroom = -Assert.IsType<Overload>(Assert.Single(scene.Faults)).ExcessDecibels;

            Assert.Empty(take.Truth.Items);
            Assert.InRange(headroom, 3, 20);
            Assert.Equal(-headroom, 20 * Math.Log10(take.Channels.Max(plane => plane.Max(Math.Abs))), 0.02);
        }
    }

    [Fact]
    public void DrawnScenes_Vary()
    {
        var scenes = Enumerable.Range(1, 60).Select(seed => SceneLottery.Draw((ulong)seed)).ToArray();

        Assert.Equal(4, scenes.Select(scene => scene.SampleRateHertz).Distinct().Count());
        Assert.Equal(3, scenes.Select(scene => scene.Rig.Word).Distinct().Count());
        Assert.Equal(5, scenes.Select(scene => scene.Rig.MidOmniShare).Distinct().Count());
        Assert.Equal(7, scenes.SelectMany(scene => scene.Sources).Select(source => source.Signal.GetType()).Distinct().Count());
        Assert.Equal(SceneLottery.Draw(5).Rig, SceneLottery.Draw(5).Rig);
    }
}

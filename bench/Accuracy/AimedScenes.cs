using Athwart.Scenes;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;
using Athwart.Scenes.Sources;

namespace Athwart.Accuracy;

/// <summary>Drawn scenes turned so that the mid points at the sound, as recordists do; every third is left as it was drawn.</summary>
/// <remarks>That the loudest source lies within about 20 degrees of the front is common practice, no source.</remarks>
internal static class AimedScenes
{
    private const int Rate = 48_000, Every = 3;
    private const double Seconds = 8, SpreadDegrees = 20;

    /// <summary>Whether the mid points at the loudest source.</summary>
    public static bool IsAimed(int number) => number % Every != Every - 1;

    /// <summary>The scene of a number; its samples are not rounded to a word.</summary>
    public static Scene Draw(int number)
    {
        var drawn = SceneLottery.Draw(990_000 + (ulong)number, Seconds) with { SampleRateHertz = Rate };
        drawn = drawn with { Rig = drawn.Rig with { Word = SampleWord.Floating } };
        return IsAimed(number) ? Aim(drawn) : drawn;
    }

    private static Scene Aim(Scene scene)
    {
        var rig = scene.Rig.Place;
        Place Middle(SoundSource source) => source.Trajectory.At(Seconds / 2) - rig;
        var subject = Middle(scene.Sources.MaxBy(s => s.LevelDecibels - Levels.Decibels(Middle(s).Length))!);
        var wanted = new Chance(scene.Seed).Fork("aim").Normal() * SpreadDegrees * Math.PI / 180;
        var (sin, cos) = Math.SinCos(wanted - Math.Atan2(subject.Y, subject.X));
        Place Turn(Place place)
        {
            var from = place - rig;
            return rig + new Place((from.X * cos) - (from.Y * sin), (from.X * sin) + (from.Y * cos), from.Z);
        }

        Trajectory Turned(Trajectory way) => way.IsFixed ? new FixedPlace(Turn(way.At(0))) : StraightPath.Between(Turn(way.At(0)), Turn(way.At(Seconds)), Seconds);
        return scene with { Sources = [.. scene.Sources.Select(s => s with { Trajectory = Turned(s.Trajectory) })] };
    }
}

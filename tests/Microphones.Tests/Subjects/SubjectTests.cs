using Athwart.Microphones.Subjects;
using CsCheck;

namespace Athwart.Microphones.Tests.Subjects;

/// <summary>Plane geometry: closed forms worked by hand.</summary>
public static class SubjectTests
{
    private static SubjectPath Boat { get; } = new() { LengthMetres = 40, ClosestMetres = 12, MetresPerSecond = 2 };

    [Fact]
    public static void AsWideAsTwiceItsDistance_FillsARightAngle()
    {
        var angle = SubjectAngle.FromWidth(20, 10);
        Assert.Equal(90, angle.Degrees, 9);
        Assert.Equal((45, -45), (Math.Round(angle.LeftEdgeDegrees, 9), Math.Round(angle.RightEdgeDegrees, 9)));
        Assert.Equal(100, angle.SuitingCoverageDegrees(), 9);
    }

    // atan(20/12) = 59.036°; the far ends are √(20² + 12²) = 23.324 m away, 20·lg(23.324/12) = 5.772 dB.
    [Fact]
    public static void BoatOver40MetresAt12_Fills118Degrees_AndRises5Point8Decibels()
    {
        Assert.Equal(118.07, Boat.Angle().Degrees, 0.005);
        Assert.Equal(0, Boat.Angle().MiddleDegrees, 9);
        Assert.Equal(5.772, Boat.LevelChangeDecibels(), 0.0005);
        Assert.Equal(20, Boat.Seconds);
    }

    [Fact]
    public static void PassingFromTheLeft_StartsPositive_AndFromTheRight_Negative()
    {
        Assert.Equal(59.036, Boat.At(0).AzimuthDegrees, 0.0005);
        Assert.Equal(-59.036, Boat.At(40).AzimuthDegrees, 0.0005);
        var back = Boat with { From = PassingFrom.Right };
        Assert.Equal(-59.036, back.At(0).AzimuthDegrees, 0.0005);
        Assert.Equal(Boat.Angle(), back.Angle());
    }

    [Fact]
    public static void Points_RunFromStartToEnd_WithTimes()
    {
        var points = Boat.Points(5);
        Assert.Equal([0, 10, 20, 30, 40], points.Select(point => point.AlongMetres));
        Assert.Equal([0.0, 5, 10, 15, 20], points.Select(point => point.Seconds!.Value));
        Assert.Equal((0, 12, 0), (points[2].AzimuthDegrees, points[2].DistanceMetres, points[2].LevelDecibels));
        Assert.Equal(-5.772, points[0].LevelDecibels, 0.0005);
    }

    // Aimed at the start, the near point is 45° and the end atan(30/10) = 71.565° more to the right.
    [Fact]
    public static void AimedAtAnotherPlace_TurnsTheWholePath()
    {
        var path = new SubjectPath { LengthMetres = 40, ClosestMetres = 10, ClosestAlongMetres = 10, AimAlongMetres = 0 };
        Assert.Equal(0, path.At(0).AzimuthDegrees, 9);
        Assert.Equal(-45, path.At(10).AzimuthDegrees, 9);
        Assert.Equal(-116.565, path.At(40).AzimuthDegrees, 0.0005);
        Assert.Equal(2 * (116.565 + 5), path.Angle().SuitingCoverageDegrees(), 0.001);
    }

    // Closest before the start: 10 m beside a line whose start is 10 m further on; from √200 to √(50² + 10²).
    [Fact]
    public static void ClosestPointBeforeTheStart_OnlyFalls()
    {
        var path = new SubjectPath { LengthMetres = 40, ClosestMetres = 10, ClosestAlongMetres = -10 };
        Assert.Equal(20 * Math.Log10(Math.Sqrt(2600) / Math.Sqrt(200)), path.LevelChangeDecibels(), 9);
        Assert.Equal(-45, path.At(0).AzimuthDegrees, 9);
    }

    [Theory]
    [InlineData(90, 1, LandingVerdict.Suits)]
    [InlineData(60, 1.5, LandingVerdict.PilesUp)]
    [InlineData(180, 0.5, LandingVerdict.Narrow)]
    public static void Edges_LandByTheirShareOfTheCoverage(double coverage, double share, LandingVerdict verdict)
    {
        var landing = new SubjectAngle(45, -45).Land(coverage);
        Assert.Equal((share, share, verdict), (landing.LeftShare, landing.RightShare, landing.Verdict));
    }

    [Fact]
    public static void CoverageNeverReached_LeavesTheSubjectNarrow()
        => Assert.Equal(new(null, null, LandingVerdict.Narrow), new SubjectAngle(45, -45).Land(null));

    [Fact]
    public static void SuitingCoverage_NeverPilesUp_ForAnyPath()
        => Gen.Select(Gen.Double[1, 200], Gen.Double[0.5, 100], Gen.Double[-50, 250], Gen.Double[0, 1]).Sample((length, closest, along, aim) =>
        {
            var path = new SubjectPath { LengthMetres = length, ClosestMetres = closest, ClosestAlongMetres = along, AimAlongMetres = aim * length };
            var angle = path.Angle();
            Assert.InRange(angle.Degrees, 0, 180);
            Assert.All(path.Points(9), point => Assert.InRange(point.AzimuthDegrees, angle.RightEdgeDegrees - 1e-9, angle.LeftEdgeDegrees + 1e-9));
            Assert.All(path.Points(9), point => Assert.True(point.DistanceMetres >= closest && point.LevelDecibels <= 0));
            Assert.InRange(path.Points(9).Max(point => point.LevelDecibels) - path.Points(9).Min(point => point.LevelDecibels), 0, path.LevelChangeDecibels() + 1e-9);
            var coverage = angle.SuitingCoverageDegrees();
            return coverage >= angle.Degrees && (coverage == 360 || angle.Land(coverage).Verdict != LandingVerdict.PilesUp);
        });

    [Fact]
    public static void FurtherAway_NeverFillsMore()
        => Gen.Select(Gen.Double[0, 100], Gen.Double[0.1, 100], Gen.Double[1, 5]).Sample((width, distance, ratio)
            => SubjectAngle.FromWidth(width, distance * ratio).Degrees <= SubjectAngle.FromWidth(width, distance).Degrees);

    [Fact]
    public static void ImpossiblePlaces_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SubjectAngle.FromWidth(10, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => (Boat with { ClosestMetres = 0 }).Angle());
        Assert.Throws<ArgumentOutOfRangeException>(() => (Boat with { MetresPerSecond = -1 }).Angle());
        Assert.Throws<ArgumentOutOfRangeException>(() => Boat.At(41));
        Assert.Throws<ArgumentOutOfRangeException>(() => Boat.Points(1));
    }
}

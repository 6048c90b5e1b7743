using Athwart.Jobs.Storage;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.PlanRig;

/// <summary>What a plan is made of.</summary>
/// <param name="Wish">The rig.</param>
/// <param name="Outing">What it is planned for.</param>
/// <param name="Kit">The kit its names are looked up in.</param>
public sealed record PlanRigRequest(RigWish Wish, Outing Outing, Kit Kit);

/// <summary>A plan.</summary>
/// <param name="Rig">The rig with its parts.</param>
/// <param name="Outing">What it is planned for.</param>
/// <param name="Document">Everything about it.</param>
public sealed record RigPlan(PlannedRig Rig, Outing Outing, RigDocument Document);

/// <summary>Plans a rig.</summary>
public static class PlanRigJob
{
    /// <summary>Runs it.</summary>
    /// <exception cref="JobException">A name or a value cannot be understood.</exception>
    public static RigPlan Run(PlanRigRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var rig = RigResolver.Resolve(request.Wish, request.Kit, request.Outing);
        return new(rig, request.Outing, RigPlanner.Plan(rig, request.Outing));
    }

    /// <summary>Writes a page with every picture and line of one rig, or of several side by side.</summary>
    /// <exception cref="JobException">The file is there already.</exception>
    public static void WritePage(string path, IReadOnlyList<RigPlan> plans, bool overwrite) => WholeFile.Write(path, RigPage.Write(plans), overwrite);

    /// <summary>One picture of a plan as SVG, with words for those who do not see it.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="picture">'above', 'polar', 'difference', 'level', 'noise' or 'gain'.</param>
    /// <param name="id">Begins the ids in the picture; unique on the page.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such picture.</exception>
    public static string Draw(RigPlan plan, string picture, string id)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var section = RigPictures.All.FirstOrDefault(p => string.Equals(p.Id, picture, StringComparison.Ordinal))
            ?? throw new ArgumentOutOfRangeException(nameof(picture), picture, "There is no such picture.");
        return section.Draw(plan, id);
    }

    /// <summary>The field sheet as the text of a page.</summary>
    public static string Sheet(RigPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return FieldSheet.Write(plan);
    }

    /// <summary>Writes the field sheet.</summary>
    /// <exception cref="JobException">The file is there already.</exception>
    public static void WriteSheet(string path, RigPlan plan, bool overwrite) => WholeFile.Write(path, FieldSheet.Write(plan), overwrite);

    /// <summary>Writes the pictures of a rig as SVG files, and as PNG too where asked, into a folder.</summary>
    /// <returns>The files, in the order of the page.</returns>
    /// <exception cref="JobException">A file is there already, or PNG cannot be drawn here.</exception>
    public static IReadOnlyList<string> WritePictures(string folder, RigPlan plan, bool png, bool overwrite) => PlanFiles.WritePictures(folder, plan, png, overwrite);
}

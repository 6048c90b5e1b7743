using System.Text;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.PlanRig;

/// <summary>Writes the plan's pages.</summary>
internal static class PlanFiles
{
    public static void Write(string path, string page, bool overwrite)
    {
        if (!overwrite && File.Exists(path))
            throw new JobException(JobErrorKind.Refused, $"'{path}' is there already.", "Choose another name, or give --overwrite.");
        WholeFile.Write(path, Encoding.UTF8.GetBytes(page));
    }
}
